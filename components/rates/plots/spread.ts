import { svg, type TemplateResult } from 'lit';
import type { DecimalString } from '../../../src/number/decimal.js';
import type { OperationTime } from '../../../src/replay/time-feedback.js';
import { along, percent, plot } from './plot.js';
import { scaleFor } from './scale.js';

/** Height of one operation, in em. */
const LANE = 2.75;

interface Words {
  readonly label: string;
  readonly xTitle: string;
  readonly write: (hours: DecimalString) => string;
  /** What the mark of the book hours is called, above the picture. */
  readonly mark: string;
}

/**
 * How long operations took: for each a line from the least to the most, a box from quartile to quartile, a stroke at the
 * median, and a diamond at the book hours.
 */
export function spreadPicture(times: readonly OperationTime[], words: Words): TemplateResult {
  const x = scaleFor(['0', ...times.flatMap(({ spread, bookHours }) => [spread.most, bookHours])], 6);
  const lane = 1 / times.length;
  // Lanes are counted from the top; the scale only gives the frame its height.
  const y = { from: '0', to: '1', ticks: [], at: Number };
  const rows = times.map(({ title, spread, bookHours }, i) => {
    const middle = percent((i + 0.7) * lane);
    const [from, to] = [x.at(spread.lowerQuartile), x.at(spread.upperQuartile)];
    const half = lane * 0.16;
    return svg`<text x="0" y=${percent((i + 0.42) * lane)}>${title}</text>
      <line class="whisker" x1=${along(x, spread.least)} x2=${along(x, spread.most)} y1=${middle} y2=${middle} />
      <rect class="box" x=${percent(from)} width=${percent(Math.max(to - from, 0.002))} y=${percent((i + 0.7) * lane - half)} height=${percent(half * 2)} />
      <line class="median" x1=${along(x, spread.median)} x2=${along(x, spread.median)} y1=${percent((i + 0.7) * lane - half)} y2=${percent((i + 0.7) * lane + half)} />
      <svg x=${along(x, bookHours)} y=${middle} class="book"><path d="M0,-6 L6,0 L0,6 L-6,0 Z" /></svg>`;
  });
  return plot(
    { label: words.label, x, y, xTitle: words.xTitle, yTitle: words.mark, write: words.write, height: times.length * LANE },
    rows,
  );
}
