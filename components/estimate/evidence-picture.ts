import { isBareJpeg, pictureSize } from './evidence-header.js';

/** The longest side of a photo in an estimate, in pixels: enough for a hairline crack, small enough to keep dozens. */
export const LONGEST_SIDE = 1600;

const MOST_BYTES = 40_000_000;
const MOST_PIXELS = 100_000_000;
const QUALITY = 0.82;

/** Why a file cannot be a photo, in words for the person who chose it. */
export class PhotoFault extends Error {}

/**
 * A photo from a file that was dropped, pasted, chosen or taken: turned as the camera held it, scaled to the longest side
 * and written anew as JPEG. Only the pixels go through, so place, time, owner and whatever else the file said of itself
 * are gone.
 *
 * @returns a data URL
 * @throws PhotoFault for what cannot be used
 */
export async function takePhoto(file: File): Promise<string> {
  const name = file.name === '' ? 'The picture' : file.name;
  await refuseTooLarge(file, name);
  const picture = await unpack(file, name);
  try {
    return await writeAnew(picture, name);
  } finally {
    picture.close();
  }
}

/**
 * A photo that came with an estimate from elsewhere, without whatever it says beside its pixels. One that was written here is
 * handed back as it is; null for one that cannot be read.
 */
export async function barePhoto(dataUrl: string): Promise<string | null> {
  const bytes = Uint8Array.from(atob(dataUrl.slice(dataUrl.indexOf(',') + 1)), (letter) => letter.charCodeAt(0));
  if (isBareJpeg(bytes)) return dataUrl;
  try {
    return await takePhoto(new File([bytes], 'The photo'));
  } catch {
    return null;
  }
}

async function refuseTooLarge(file: File, name: string): Promise<void> {
  if (file.size === 0) throw new PhotoFault(`${name} is empty. Choose it again, or take another photo.`);
  if (file.size > MOST_BYTES) {
    throw new PhotoFault(
      `${name} has ${Math.round(file.size / 1e6)} MB; ${MOST_BYTES / 1e6} MB is the most. Save it smaller, then add it again.`,
    );
  }
  const size = pictureSize(new Uint8Array(await file.arrayBuffer()));
  if (size !== null && size.width * size.height > MOST_PIXELS) {
    throw new PhotoFault(
      `${name} is ${size.width} by ${size.height} pixels, too large to unpack here. Save it smaller, then add it again.`,
    );
  }
}

async function unpack(file: File, name: string): Promise<ImageBitmap> {
  try {
    return await createImageBitmap(file, { imageOrientation: 'from-image' });
  } catch {
    throw new PhotoFault(`${name} is no picture that this browser can read, or it is broken. Save it as JPEG or PNG, then add it again.`);
  }
}

async function writeAnew(picture: ImageBitmap, name: string): Promise<string> {
  const scale = Math.min(1, LONGEST_SIDE / Math.max(picture.width, picture.height));
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(picture.width * scale));
  canvas.height = Math.max(1, Math.round(picture.height * scale));
  const context = canvas.getContext('2d');
  if (context === null)
    throw new PhotoFault(`${name} cannot be scaled here: the browser gives no canvas. Close other pages, then try again.`);
  // JPEG knows no transparency, and would make it black.
  context.fillStyle = '#ffffff';
  context.fillRect(0, 0, canvas.width, canvas.height);
  context.imageSmoothingQuality = 'high';
  context.drawImage(picture, 0, 0, canvas.width, canvas.height);
  const written = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/jpeg', QUALITY));
  if (written === null) throw new PhotoFault(`${name} cannot be written as JPEG here. Close other pages, then try again.`);
  return readAsUrl(written);
}

function readAsUrl(blob: Blob): Promise<string> {
  return new Promise((done, fail) => {
    const reader = new FileReader();
    reader.onload = () => done(reader.result as string);
    reader.onerror = () => fail(new Error('The picture cannot be read.', { cause: reader.error }));
    reader.readAsDataURL(blob);
  });
}
