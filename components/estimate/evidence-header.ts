/** How large a picture says it is. */
export interface PictureSize {
  readonly width: number;
  readonly height: number;
}

/**
 * The size that stands at the head of a JPEG, PNG, GIF or WebP file, so that one which would fill the memory is refused
 * before it is unpacked. Null for other kinds and for files that are cut off.
 */
export function pictureSize(bytes: Uint8Array): PictureSize | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const name = (from: number, to: number): string => String.fromCharCode(...bytes.subarray(from, to));
  if (name(0, 8) === '\x89PNG\r\n\x1a\n' && bytes.length >= 24) return { width: view.getUint32(16), height: view.getUint32(20) };
  if (/^GIF8[79]a$/.test(name(0, 6)) && bytes.length >= 10) return { width: view.getUint16(6, true), height: view.getUint16(8, true) };
  if (name(0, 4) === 'RIFF' && name(8, 12) === 'WEBP' && bytes.length >= 30) return webpSize(view, name(12, 16));
  if (bytes[0] === 0xff && bytes[1] === 0xd8) return jpegSize(view);
  return null;
}

function webpSize(view: DataView, chunk: string): PictureSize | null {
  const low = (at: number): number => view.getUint16(at, true);
  switch (chunk) {
    case 'VP8X':
      return { width: 1 + low(24) + view.getUint8(26) * 0x10000, height: 1 + low(27) + view.getUint8(29) * 0x10000 };
    case 'VP8L': {
      const bits = view.getUint32(21, true);
      return { width: 1 + (bits & 0x3fff), height: 1 + ((bits >> 14) & 0x3fff) };
    }
    case 'VP8 ':
      return { width: low(26) & 0x3fff, height: low(28) & 0x3fff };
    default:
      return null;
  }
}

/** Goes from segment to segment until one that begins a frame (SOF0 to SOF15, without DHT, JPG and DAC). */
function jpegSize(view: DataView): PictureSize | null {
  let at = 2;
  while (at + 9 <= view.byteLength) {
    if (view.getUint8(at) !== 0xff) return null;
    const marker = view.getUint8(at + 1);
    if (marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker)) {
      return { width: view.getUint16(at + 7), height: view.getUint16(at + 5) };
    }
    // A fill byte before a marker stands alone; every other segment says how long it is.
    at += marker === 0xff ? 1 : 2 + view.getUint16(at + 2);
  }
  return null;
}

/**
 * Whether a file is a JPEG with nothing beside its pixels but what is needed to unpack them: no EXIF or XMP (APP1), no IPTC
 * (APP13), no comment, nothing of a maker's. JFIF (APP0) and a colour profile (APP2) may be there.
 */
export function isBareJpeg(bytes: Uint8Array): boolean {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes[0] !== 0xff || bytes[1] !== 0xd8) return false;
  let at = 2;
  while (at + 4 <= view.byteLength) {
    const marker = view.getUint8(at + 1);
    if (view.getUint8(at) !== 0xff) return false;
    if (marker === 0xda) return true;
    if (marker === 0xfe || (marker >= 0xe0 && marker <= 0xef && marker !== 0xe0 && marker !== 0xe2)) return false;
    at += 2 + view.getUint16(at + 2);
  }
  return false;
}
