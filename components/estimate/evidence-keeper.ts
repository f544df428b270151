import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import type { Estimate, Evidence } from '../../src/documents/estimate.js';
import type { KeptStore, StorageFault } from '../storage/port.js';

/** What may be shown as a photo: the picture itself, never an address that would tell somebody who looks. */
const PICTURE = /^data:image\/(png|jpeg|webp|gif|avif);base64,[A-Za-z0-9+/=]+$/;

/** What there is to show for the `photo` of an evidence. */
export type Picture = { readonly src: string } | 'loading' | 'missing';

/** The id of a photo: SHA-256, in hexadecimal, of its data URL. */
export function photoId(dataUrl: string): string {
  return bytesToHex(sha256(utf8ToBytes(dataUrl)));
}

/**
 * Where the photos of an estimate are. With a store the estimate holds their ids, and the photos are kept under them;
 * without one it holds the photos themselves, as data URLs. Both may stand side by side. A photo is never taken out of
 * the store: undo may bring back what names it, and so may another estimate.
 */
export class PhotoKeeper {
  private readonly known = new Map<string, Picture>();
  private storage: KeptStore | null = null;

  /** @param changed called when a photo that was asked for is there, or is found to be missing */
  constructor(private readonly changed: () => void) {}

  use(storage: KeptStore | null): void {
    if (storage === this.storage) return;
    this.storage = storage;
    for (const [id, picture] of this.known) if (picture === 'missing') this.known.delete(id);
  }

  /**
   * Keeps a photo; gives what stands for it in the estimate.
   * @throws Error in words, where it cannot be kept
   */
  async keep(dataUrl: string): Promise<string> {
    if (this.storage === null) return dataUrl;
    const id = photoId(dataUrl);
    try {
      // A conflict means that this very photo is there already.
      await this.storage.put('photo', id, dataUrl, null, 'photo');
    } catch (fault) {
      throw new Error(whyNotKept(fault), { cause: fault });
    }
    this.known.set(id, { src: dataUrl });
    return id;
  }

  /** What to show now; what is not at hand yet is fetched, and `changed` called. */
  picture(photo: string): Picture {
    if (PICTURE.test(photo)) return { src: photo };
    if (photo.startsWith('data:') || this.storage === null) return this.known.get(photo) ?? 'missing';
    const known = this.known.get(photo);
    if (known !== undefined) return known;
    this.known.set(photo, 'loading');
    void this.read(photo).then(() => this.changed());
    return 'loading';
  }

  /** The photo itself for what stands in an estimate; null where it is not kept here. */
  async resolve(photo: string): Promise<string | null> {
    const known = this.picture(photo);
    const picture = known === 'loading' ? await this.read(photo) : known;
    return typeof picture === 'string' ? null : picture.src;
  }

  /** The estimate with all photos in it, for a file; `missing` counts those that are not kept here, which stay as ids. */
  async embed(estimate: Estimate): Promise<{ readonly estimate: Estimate; readonly missing: number }> {
    let missing = 0;
    const embedded = await mapEvidence(estimate, async (evidence) => {
      if (evidence.photo === '' || evidence.photo.startsWith('data:')) return evidence;
      const photo = await this.resolve(evidence.photo);
      if (photo === null) missing += 1;
      return photo === null ? evidence : { ...evidence, photo };
    });
    return { estimate: embedded, missing };
  }

  /** The estimate of a file with its photos in the store; those that find no room stay where they are, and `fault` says why. */
  async takeOut(estimate: Estimate): Promise<{ readonly estimate: Estimate; readonly fault: string }> {
    let fault = '';
    const lean = await mapEvidence(estimate, async (evidence) => {
      if (!PICTURE.test(evidence.photo) || fault !== '') return evidence;
      try {
        return { ...evidence, photo: await this.keep(evidence.photo) };
      } catch (reason) {
        fault = (reason as Error).message;
        return evidence;
      }
    });
    return { estimate: lean, fault };
  }

  /**
   * What a customer's file may hold: the photos that are chosen for the customer, and that are here.
   * @param bare takes out of a photo what it says beside its pixels; null leaves it out
   */
  async forCustomer(estimate: Estimate, bare: (photo: string) => Promise<string | null>): Promise<Estimate> {
    return mapEvidence(estimate, async (evidence) => {
      if (evidence.photo === '') return evidence;
      const photo = evidence.forCustomer === false ? null : await this.resolve(evidence.photo);
      return { ...evidence, photo: (photo === null ? null : await bare(photo)) ?? '' };
    });
  }

  private async read(id: string): Promise<Picture> {
    const kept = await this.storage?.get('photo', id).catch(() => null);
    const picture: Picture = kept && PICTURE.test(kept.text) ? { src: kept.text } : 'missing';
    this.known.set(id, picture);
    return picture;
  }
}

/** An estimate with every evidence changed; findings that stay the same stay the same objects. */
async function mapEvidence(estimate: Estimate, change: (evidence: Evidence) => Promise<Evidence>): Promise<Estimate> {
  const findings: Estimate['findings'] = [];
  for (const finding of estimate.findings) {
    const seen: Evidence[] = [];
    for (const evidence of finding.seen) seen.push(await change(evidence));
    findings.push(seen.every((evidence, i) => evidence === finding.seen[i]) ? finding : { ...finding, seen });
  }
  return { ...estimate, findings };
}

function whyNotKept(fault: unknown): string {
  // By its code and not by its class: the store may come from another script of the page.
  switch ((fault as Partial<StorageFault> | null)?.code) {
    case 'full':
      return 'There is no room left for photos in this browser. Nothing else is lost: save the estimate as a file, make room, then add the photo again.';
    case 'denied':
      return 'This browser does not let the page keep photos. Allow it to store data, then add the photo again.';
    case 'away':
      return 'Where photos are kept cannot be reached now. Add the photo again when the connection is back.';
    default:
      return `The photo cannot be kept (${fault instanceof Error ? fault.message : String(fault)}). Add it again, or save the estimate as a file first.`;
  }
}
