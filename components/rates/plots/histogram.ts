import { html, nothing, svg, type TemplateResult } from 'lit';
import type { DecimalString } from '../../../src/number/decimal.js';
import type { Changes } from '../../../src/replay/changes.js';
import { along, down, percent, plot } from './plot.js';
import { scaleFor } from './scale.js';

interface Words {
  /** What a screen reader says of the picture. */
  readonly label: string;
  readonly xTitle: string;
  readonly yTitle: string;
  /** How a limit of a class is written. */
  readonly write: (figure: DecimalString) => string;
  readonly count: (count: number) => string;
}

/** How many estimates changed by how much: a bar for each class, those that fall hollow, and a line at no change. */
export function histogram({ classes, unchanged }: Changes, words: Words): TemplateResult | typeof nothing {
  if (classes.length === 0) return nothing;
  const x = scaleFor(['0', classes[0]!.from, classes.at(-1)!.to], 4);
  const y = scaleFor(['0', ...classes.map(({ count }) => String(count))], 4);
  const ticks = y.ticks.filter((tick) => !tick.includes('.'));
  const bars = classes.map(({ from, to, count }) => {
    if (count === 0) return nothing;
    const [left, top] = [x.at(from), y.at(String(count))];
    return svg`<rect class=${from.startsWith('-') ? 'bar less' : 'bar'} x=${percent(left)} y=${down(y, String(count))}
      width=${percent(x.at(to) - left)} height=${percent(top)} />`;
  });
  const zero = along(x, '0');
  return plot(
    {
      label: words.label,
      x,
      y: { ...y, ticks },
      xTitle: words.xTitle,
      yTitle: words.yTitle,
      write: words.write,
      writeY: (tick) => words.count(Number(tick)),
    },
    svg`${bars}<line class="zero" x1=${zero} x2=${zero} y1="0" y2="100%" />
      ${unchanged === 0 ? nothing : svg`<text class="middle" x=${zero} y="0" dy="-0.5em">${words.count(unchanged)} unchanged</text>`}`,
  );
}

/** The same as a table. */
export function histogramTable({ classes, unchanged }: Changes, words: Words): TemplateResult {
  return html`<table class="ruled">
    <caption class="unseen">${words.label}</caption>
    <thead>
      <tr>
        <th scope="col" class="figure">${words.xTitle} from</th>
        <th scope="col" class="figure">to less than</th>
        <th scope="col" class="figure">${words.yTitle}</th>
      </tr>
    </thead>
    <tbody>
      ${unchanged === 0 ? nothing : html`<tr><td colspan="2">no change</td><td class="figure">${words.count(unchanged)}</td></tr>`}
      ${classes.map(
        ({ from, to, count }) => html`<tr>
          <td class="figure">${words.write(from)}</td>
          <td class="figure">${words.write(to)}</td>
          <td class="figure">${words.count(count)}</td>
        </tr>`,
      )}
    </tbody>
  </table>`;
}
