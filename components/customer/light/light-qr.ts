/**
 * QR codes (ISO/IEC 18004) for one purpose: an answer, which is bytes, at the lowest error correction (L), up to version
 * 24 (1171 bytes). The squares are those of `uqr` with the same mask, which the tests try for every version.
 */

/** By version from 1: correction codewords in each block, and blocks, at level L (table 9; from memory, tested against `uqr`). */
const CORRECTION = [7, 10, 15, 20, 26, 18, 20, 24, 30, 18, 20, 24, 26, 30, 22, 24, 28, 30, 28, 28, 28, 28, 30, 30];
const BLOCKS = [1, 1, 1, 1, 1, 2, 2, 2, 2, 4, 4, 4, 4, 4, 6, 6, 6, 6, 7, 8, 8, 9, 9, 10];

/** Which squares a mask turns over (table 10). */
const MASKS: readonly ((x: number, y: number) => number)[] = [
  (x, y) => (x + y) % 2,
  (_, y) => y % 2,
  (x) => x % 3,
  (x, y) => (x + y) % 3,
  (x, y) => (((x / 3) | 0) + ((y / 2) | 0)) & 1,
  (x, y) => ((x * y) % 2) + ((x * y) % 3),
  (x, y) => (((x * y) % 2) + ((x * y) % 3)) % 2,
  (x, y) => (((x + y) % 2) + ((x * y) % 3)) % 2,
];

/** @param border quiet zone, in squares */
export function encode(text: string, { border }: { readonly border: number }): { data: boolean[][]; size: number; maskPattern: number } {
  const bytes = new TextEncoder().encode(text);
  const version = 1 + CORRECTION.findIndex((_, i) => bytes.length + (i < 9 ? 2 : 3) <= capacity(i + 1));
  if (version === 0) throw new Error('The text is too long.');
  const placed = drawFixed(version);
  drawBytes(placed, inBlocks(codewords(bytes, version), version));
  const masked = MASKS.map((_, mask) => withMask(placed, mask));
  const penalties = masked.map(penalty);
  const maskPattern = penalties.indexOf(Math.min(...penalties));
  const squares = masked[maskPattern]!;
  const size = squares.length + 2 * border;
  const data = Array.from({ length: size }, (_, y) => Array.from({ length: size }, (_, x) => squares[y - border]?.[x - border] === 1));
  return { data, size, maskPattern };
}

/** All codewords of a version: squares that are not for finding, timing and format, in eights. */
function allCodewords(version: number): number {
  const aligned = version < 2 ? 0 : ((version / 7) | 0) + 2;
  const squares = (16 * version + 128) * version + 64 - (aligned > 0 ? (25 * aligned - 10) * aligned - 55 : 0) - (version < 7 ? 0 : 36);
  return squares >> 3;
}

/** Those of them that hold the text. */
function capacity(version: number): number {
  return allCodewords(version) - CORRECTION[version - 1]! * BLOCKS[version - 1]!;
}

/** Mode "bytes", length, the bytes, and the padding. */
function codewords(bytes: Uint8Array, version: number): number[] {
  const nibbles = [4, ...(version < 10 ? [] : [bytes.length >> 12, (bytes.length >> 8) & 15]), (bytes.length >> 4) & 15, bytes.length & 15];
  for (const byte of bytes) nibbles.push(byte >> 4, byte & 15);
  nibbles.push(0);
  const words = [];
  for (let i = 0; i < nibbles.length; i += 2) words.push((nibbles[i]! << 4) | nibbles[i + 1]!);
  for (let pad = 236; words.length < capacity(version); pad ^= 253) words.push(pad);
  return words;
}

/** Cut into blocks, each with its correction, and dealt out in turns. */
function inBlocks(words: readonly number[], version: number): number[] {
  const count = BLOCKS[version - 1]!;
  const divisor = generator(CORRECTION[version - 1]!);
  const short = (words.length / count) | 0;
  const shorts = count - (words.length % count);
  const blocks = Array.from({ length: count }, (_, i) => {
    const from = i * short + Math.max(0, i - shorts);
    return words.slice(from, from + short + (i < shorts ? 0 : 1));
  });
  const dealt = (lists: readonly (readonly number[])[]): number[] =>
    lists.at(-1)!.flatMap((_, i) => lists.flatMap((list) => list[i] ?? []));
  return [...dealt(blocks), ...dealt(blocks.map((block) => remainder(block, divisor)))];
}

/** Product in the field of 256 elements by the polynomial 11D. */
function times(a: number, b: number): number {
  let product = 0;
  for (let i = 7; i >= 0; i -= 1) product = (product << 1) ^ ((product >> 7) * 0x11d) ^ (((b >> i) & 1) * a);
  return product;
}

/** (x − 1)(x − 2)(x − 4) … without its first coefficient. */
function generator(degree: number): number[] {
  const result: number[] = Array.from({ length: degree }, (_, i) => (i === degree - 1 ? 1 : 0));
  for (let n = 0, root = 1; n < degree; n += 1, root = times(root, 2)) {
    for (let i = 0; i < degree; i += 1) result[i] = times(result[i]!, root) ^ (result[i + 1] ?? 0);
  }
  return result;
}

function remainder(words: readonly number[], divisor: readonly number[]): number[] {
  const rest = divisor.map(() => 0);
  for (const word of words) {
    const factor = word ^ rest.shift()!;
    rest.push(0);
    divisor.forEach((coefficient, i) => (rest[i]! ^= times(coefficient, factor)));
  }
  return rest;
}

/** Rows of squares: 0 light, 1 dark, undefined where the text goes. */
type Squares = (number | undefined)[][];

function drawFixed(version: number): Squares {
  const size = 4 * version + 17;
  const squares: Squares = Array.from({ length: size }, () => Array.from({ length: size }));
  for (let i = 0; i < size; i += 1) squares[6]![i] = squares[i]![6] = (i + 1) & 1;

  /** Rings around a centre, with those dark that are not in `light`. */
  const rings = (x: number, y: number, reach: number, light: readonly number[]): void => {
    for (let dy = -reach; dy <= reach; dy += 1) {
      for (let dx = -reach; dx <= reach; dx += 1) {
        const row = squares[y + dy];
        if (row !== undefined && x + dx >= 0 && x + dx < size) row[x + dx] = light.includes(Math.max(Math.abs(dx), Math.abs(dy))) ? 0 : 1;
      }
    }
  };
  const places = alignment(version, size);
  const last = size - 7;
  const isFinder = (x: number, y: number): boolean => (x === 6 && (y === 6 || y === last)) || (x === last && y === 6);
  for (const x of places) for (const y of places) if (!isFinder(x, y)) rings(x, y, 2, [1]);
  for (const [x, y] of [
    [3, 3],
    [size - 4, 3],
    [3, size - 4],
  ] as const)
    rings(x, y, 4, [2, 4]);
  drawFormat(squares, 0);
  if (version >= 7) {
    const bits = checked(version, 12, 0x1f25);
    for (let i = 0; i < 18; i += 1) {
      const [far, near] = [size - 11 + (i % 3), (i / 3) | 0];
      squares[near]![far] = squares[far]![near] = (bits >> i) & 1;
    }
  }
  return squares;
}

/** Centres of the alignment patterns along one side (annex E). */
function alignment(version: number, size: number): number[] {
  if (version === 1) return [];
  const count = ((version / 7) | 0) + 2;
  const step = Math.ceil((version * 4 + 4) / (count * 2 - 2)) * 2;
  return [6, ...Array.from({ length: count - 1 }, (_, i) => size - 7 - step * (count - 2 - i))];
}

/** A figure with its Bose–Chaudhuri–Hocquenghem check behind it. */
function checked(value: number, length: number, divisor: number): number {
  let rest = value;
  for (let i = 0; i < length; i += 1) rest = (rest << 1) ^ ((rest >> (length - 1)) * divisor);
  return (value << length) | rest;
}

/** Level L and the mask, twice. */
function drawFormat(squares: Squares, mask: number): void {
  const bits = checked(8 | mask, 10, 0x537) ^ 0x5412;
  const size = squares.length;
  for (let i = 0; i < 15; i += 1) {
    const bit = (bits >> i) & 1;
    squares[i < 6 ? i : i < 8 ? i + 1 : size - 15 + i]![8] = bit;
    squares[8]![i < 8 ? size - 1 - i : i < 9 ? 7 : 14 - i] = bit;
  }
  squares[size - 8]![8] = 1;
}

/** From the lower right in columns of two, up and down; the two bits beside a mask are what they are: light. */
function drawBytes(squares: Squares, words: readonly number[]): void {
  const size = squares.length;
  const free: [number, number][] = [];
  for (let right = size - 1; right > 0; right -= right === 8 ? 3 : 2) {
    for (let k = 0; k < size; k += 1) {
      const y = (right + 1) & 2 ? k : size - 1 - k;
      for (const x of [right, right - 1]) if (squares[y]![x] === undefined) free.push([x, y]);
    }
  }
  // What is of the text is told from what is fixed by two more, so that a mask knows what it may turn over.
  free.forEach(([x, y], i) => (squares[y]![x] = 2 + (((words[i >> 3] ?? 0) >> (7 - (i & 7))) & 1)));
}

function withMask(squares: Squares, mask: number): number[][] {
  const copy = squares.map((row) => [...row]);
  drawFormat(copy, mask);
  return copy.map((row, y) => row.map((square, x) => (square! < 2 ? square! : (square! & 1) ^ (MASKS[mask]!(x, y) === 0 ? 1 : 0))));
}

/** How hard a code is to read (table 11): long runs, blocks of two by two, what looks like a finder, and being too dark or too light. */
function penalty(squares: readonly (readonly number[])[]): number {
  let points = 0;
  const lines = [...squares, ...squares.map((_, x) => squares.map((row) => row[x]!))].map((row) => row.join(''));
  for (const line of lines) {
    for (const run of line.match(/0{5,}|1{5,}/g) ?? []) points += run.length - 2;
    points += 40 * (line.match(/1011101(?=0000)|(?<=0000)1011101/g) ?? []).length;
  }
  squares.slice(1).forEach((row, y) =>
    row.slice(1).forEach((square, x) => {
      const above = squares[y]!;
      if (square === row[x] && square === above[x] && square === above[x + 1]) points += 3;
    }),
  );
  const dark = squares.flat().filter((square) => square === 1).length;
  return points + 10 * Math.floor(Math.abs((20 * dark) / squares.length ** 2 - 10));
}
