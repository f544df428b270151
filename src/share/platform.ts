import { ShareFault } from './fault.js';

/**
 * The few things of the web platform that sharing needs, declared here because the engine has no types of the DOM.
 * Browsers and Node 20 have them all; a page that is not served over https lacks `crypto.subtle`.
 */

/** A key of the Web Cryptography API, as `crypto.subtle` makes it. */
export interface PlatformKey {
  readonly type: string;
}

interface Subtle {
  digest(algorithm: string, data: Uint8Array): Promise<ArrayBuffer>;
}

interface ByteReader {
  read(): Promise<{ readonly done: boolean; readonly value?: Uint8Array }>;
  cancel(): Promise<void>;
}

interface ByteStream {
  getReader(): ByteReader;
}

interface Transformer {
  readonly readable: ByteStream;
  readonly writable: {
    getWriter(): { write(bytes: Uint8Array): Promise<void>; close(): Promise<void> };
  };
}

type MakeTransformer = new (format: string) => Transformer;

interface Platform {
  readonly crypto?: { readonly subtle?: Subtle };
  readonly CompressionStream?: MakeTransformer;
  readonly DecompressionStream?: MakeTransformer;
  readonly TextEncoder: new () => { encode(text: string): Uint8Array };
  readonly TextDecoder: new (label: string, options: { fatal: boolean; ignoreBOM: boolean }) => { decode(bytes: Uint8Array): string };
  readonly atob: (text: string) => string;
  readonly btoa: (text: string) => string;
  readonly setTimeout: (then: () => void) => unknown;
}

const platform = globalThis as unknown as Platform;

/** @throws ShareFault on a page that is not served over https */
export function subtle(): Subtle {
  const found = platform.crypto?.subtle;
  if (found !== undefined) return found;
  throw new ShareFault(
    'no-crypto',
    'Signatures cannot be made or checked on this page, because its address begins with http. Open it at an address that begins with https.',
  );
}

/** @throws ShareFault in a browser that is too old */
export function compressor(): Transformer {
  return transformer(platform.CompressionStream);
}

/** @throws ShareFault in a browser that is too old */
export function decompressor(): Transformer {
  return transformer(platform.DecompressionStream);
}

function transformer(make: MakeTransformer | undefined): Transformer {
  try {
    if (make !== undefined) return new make('deflate-raw');
  } catch {
    // A browser that has the streams but not this format.
  }
  throw new ShareFault('old-browser', 'This browser is too old to open links to estimates. Update it, or use another one.');
}

export function utf8(text: string): Uint8Array {
  return new platform.TextEncoder().encode(text);
}

/** @throws TypeError where the bytes are no UTF-8 */
export function fromUtf8(bytes: Uint8Array): string {
  return new platform.TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
}

export const { atob, btoa } = { atob: (text: string) => platform.atob(text), btoa: (text: string) => platform.btoa(text) };

/** Until whatever else the page has to do is done. */
export function pause(): Promise<void> {
  return new Promise((then) => platform.setTimeout(then));
}
