import { printProblem } from '../documents/problem.js';
import type { Documents } from '../pricing/documents.js';
import { priceEstimate } from '../pricing/price-estimate.js';
import { type Advice, adviceFor } from './advice.js';
import { customerCopy } from './customer-copy.js';
import { ShareFault } from './fault.js';
import { sha256, signCompact } from './jws.js';
import type { SigningKey } from './keys.js';
import { packCopy } from './pack.js';
import { NO_SHOP, type ShopSettings } from './shop.js';

export interface SealOptions {
  /** What comes before the sealed text in the link (`https://shop.example/estimate#e=`); it counts into the length. */
  readonly address?: string;
  /** When it is sealed; now, unless said otherwise. */
  readonly at?: Date;
}

/** A signed customer's copy. */
export interface Sealed {
  /** The compact JWS that goes into the link. */
  readonly token: string;
  /** SHA-256 of what was signed, base64url: an answer names it. To be kept with the estimate. */
  readonly hash: string;
  /** ISO 8601, UTC, to the second. */
  readonly sealedAt: string;
  /** Characters of address and sealed text together. */
  readonly length: number;
  readonly advice: readonly Advice[];
}

/**
 * The customer's copy of an estimate, packed and signed with the shop's key. The link proves who made it and that
 * nothing was changed; it hides nothing from anyone who has it.
 *
 * @throws ShareFault with a sentence for the advisor: documents that cannot be read, lines that cannot be priced, a
 *   key that does not sign, a page without `crypto.subtle`, an estimate too long for any link
 */
export async function sealEstimate(
  documents: Documents & { readonly shop?: ShopSettings },
  key: SigningKey,
  { address = '', at = new Date() }: SealOptions = {},
): Promise<Sealed> {
  const told = customerCopy(documents);
  const copy = documents.shop?.published === true ? { ...told, shop: NO_SHOP } : told;
  const priced = priceEstimate(documents);
  if (!priced.complete) {
    const errors = priced.problems.filter((problem) => problem.severity === 'error');
    throw new ShareFault(
      'incomplete',
      `A line cannot be priced, so the total would be wrong: ${errors.slice(0, 3).map(printProblem).join('; ')}`,
    );
  }
  const sealedAt = `${at.toISOString().slice(0, 19)}Z`;
  const payload = packCopy({ copy, sealedAt });
  const token = await signCompact(payload, key);
  const length = address.length + token.length;
  return { token, hash: await sha256(payload), sealedAt, length, advice: adviceFor(length) };
}
