import type { TeardownStep } from './teardown.js';

/** Widths of letters differ; this is what a line of a title takes on average, with some room, in em of the host's text. */
const LETTER = 0.5;
const LINE = 1;
const MARGIN = 0.75;

/** The turned title of a block: its lines, and the lane where its middle is. */
export interface TitlePlace {
  readonly lines: readonly string[];
  readonly middle: number;
}

/**
 * Where a step's title can be written upright in its block, clear of the cell with the mark; null where it has no
 * room even at the narrowest drawing. All steps have their title in the key as well.
 *
 * @param lane height of a lane in em
 * @param hour least width of an hour in em
 */
export function titlePlace(block: TeardownStep, lane: number, hour: number): TitlePlace | null {
  const free = block.runs.flatMap((run) => {
    const end = run.top + run.lanes;
    const { top, lanes } = block.carried;
    if (top < run.top || top >= end) return [run];
    return [
      { top: run.top, lanes: top - run.top },
      { top: top + lanes, lanes: end - top - lanes },
    ];
  });
  const roomiest = free.reduce((best, part) => (part.lanes > best.lanes ? part : best), { top: 0, lanes: 0 });
  const letters = Math.floor((roomiest.lanes * lane - MARGIN) / LETTER);
  const most = Math.floor((block.width * hour) / LINE);
  const lines = wrap(block.title, letters);
  if (lines === null || lines.length > most) return null;
  return { lines, middle: roomiest.top + roomiest.lanes / 2 };
}

function wrap(title: string, letters: number): string[] | null {
  const lines: string[] = [];
  for (const word of title.split(' ')) {
    if (word.length > letters) return null;
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= letters) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}
