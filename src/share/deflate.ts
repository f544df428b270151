import { compressor, decompressor } from './platform.js';

/** Raw DEFLATE (RFC 1951) by the platform. */
export async function deflate(bytes: Uint8Array): Promise<Uint8Array> {
  const inflated = await through(compressor(), bytes, Infinity);
  return inflated!;
}

/**
 * Undoes `deflate`. Null for bytes that are no DEFLATE, that stop in the middle or go on behind the end, and for more
 * than `most` bytes of output, of which no more are made than the platform makes in one piece.
 */
export async function inflate(bytes: Uint8Array, most: number): Promise<Uint8Array | null> {
  const stream = decompressor();
  try {
    return await through(stream, bytes, most);
  } catch {
    return null;
  }
}

async function through(stream: ReturnType<typeof compressor>, bytes: Uint8Array, most: number): Promise<Uint8Array | null> {
  const writer = stream.writable.getWriter();
  // What goes wrong with the input shows when the output is read; waiting for it here would wait for ever.
  const written = writer.write(bytes).then(() => writer.close());
  written.catch(() => undefined);

  const reader = stream.readable.getReader();
  const pieces: Uint8Array[] = [];
  let length = 0;
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    length += value!.length;
    if (length > most) {
      await reader.cancel();
      return null;
    }
    pieces.push(value!);
  }
  const whole = new Uint8Array(length);
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}
