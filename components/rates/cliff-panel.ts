import { html, nothing, svg, type SVGTemplateResult, type TemplateResult } from 'lit';
import type { MarkUp, Rates } from '../../src/documents/rates.js';
import { decimal, printPlain } from '../../src/number/decimal.js';
import { type MoneyRule, printMoney, roundMoney } from '../../src/number/money.js';
import { type CliffWay, cliffWays, compareMarkUps, pictureEnd, priceCorners } from '../../src/pricing/cliff-ways.js';
import { formatMoney } from '../look/format.js';
import { scrolling } from '../look/scrolling.js';
import { along, curve, down, plot } from './plots/plot.js';
import { type Scale, scaleFor } from './plots/scale.js';

const WAY_NAMES: Readonly<Record<CliffWay['id'], string>> = { progressive: 'Progressive tiers', held: 'Held mark-up' };

/**
 * What a part sells for against what it costs: the picture, every drop by itself and in words, and the ways out of a cliff
 * with one press each. `pricesTable` says the same in figures.
 */
export function markUpPanel(rates: Rates, money: MoneyRule, take: (way: CliffWay) => void): TemplateResult {
  const write = moneyOf(rates);
  const drops = dropsOf(rates.parts, money);
  const ways = cliffWays(rates.parts, money);
  return html`<div class="mark-up" part="mark-up">
    ${picture(rates.parts, drops, ways, write)}
    ${
      drops.length === 0
        ? html`<p class="quiet">A dearer part never sells for less.</p>`
        : html`<div class="drops">${drops.map((drop) => dropPicture(rates.parts, drop, ways, write))}</div>`
    }
    ${ways.map((way) => wayOut(way, write, take))}
  </div>`;
}

function moneyOf({ currency, locale }: Rates): (amount: string) => string {
  return (amount) => formatMoney(amount, currency, locale);
}

/** One limit at which the price falls. */
interface Drop {
  readonly cost: string;
  readonly from: string;
  readonly to: string;
}

function dropsOf(parts: MarkUp, money: MoneyRule): Drop[] {
  const corners = priceCorners(parts, pictureEnd(parts));
  return corners.flatMap(({ cost, price }, i) => {
    const before = corners[i - 1];
    if (before === undefined || before.cost !== cost || !decimal(price).lt(decimal(before.price))) return [];
    const print = (exact: string): string => printMoney(roundMoney(decimal(exact), money), money);
    return [{ cost: print(cost), from: print(before.price), to: print(price) }];
  });
}

type Line = readonly (readonly [cost: string, price: string])[];

function linesOf(parts: MarkUp, ways: readonly CliffWay[], end: string): Line[] {
  return [parts, ...ways.map((way) => way.parts)].map((each) => priceCorners(each, end).map(({ cost, price }) => [cost, price] as const));
}

function picture(parts: MarkUp, drops: readonly Drop[], ways: readonly CliffWay[], write: (amount: string) => string): TemplateResult {
  const end = pictureEnd(parts);
  const lines = linesOf(parts, ways, end);
  const x = scaleFor(['0', end]);
  const y = scaleFor(['0', ...lines.map((line) => line.at(-1)![1]), ...drops.map(({ from }) => from)]);
  const told =
    drops.length === 0 ? 'The price rises all the way.' : `The price falls ${drops.map((drop) => dropWords(drop, write)).join('; ')}.`;
  const label = `Sell price of a part against its cost, up to ${write(end)}. ${told} The table of prices has the figures.`;
  return html`<figure>
    ${plot({ label, x, y, xTitle: 'Cost', yTitle: 'Sells for', write }, drawing(lines, drops, x, y))}
    ${
      ways.length === 0
        ? nothing
        : html`<figcaption class="quiet">
          Whole line: now, with a dot where it falls. Dashed: ${WAY_NAMES.progressive.toLowerCase()}.${
            ways.length > 1 ? ` Dotted: ${WAY_NAMES.held.toLowerCase()}.` : ''
          }
        </figcaption>`
    }
  </figure>`;
}

/** One drop from near by: in the whole picture those at low costs cannot be seen. */
function dropPicture(parts: MarkUp, drop: Drop, ways: readonly CliffWay[], write: (amount: string) => string): TemplateResult {
  const cost = decimal(drop.cost);
  const [from, to] = [cost.times('0.6'), cost.times('1.6')];
  const lines = linesOf(parts, ways, printPlain(to));
  const x = scaleFor([printPlain(from), printPlain(to)], 2);
  const y = scaleFor([printPlain(decimal(drop.to).times('0.7')), ...lines.map((line) => line.at(-1)![1]), drop.from], 3);
  const words = `Falls ${dropWords(drop, write)}.`;
  return html`<figure class="drop-figure">
    ${plot({ label: words, x, y, xTitle: 'Cost', yTitle: 'Sells for', write }, drawing(linesOf(parts, ways, x.to), [drop], x, y))}
    <figcaption><strong>${words}</strong></figcaption>
  </figure>`;
}

function dropWords({ cost, from, to }: Drop, write: (amount: string) => string): string {
  return `at a cost of ${write(cost)} from ${write(from)} to ${write(to)}`;
}

function drawing(lines: readonly Line[], drops: readonly Drop[], x: Scale, y: Scale): SVGTemplateResult {
  return svg`${lines.slice(1).map((line, i) => curve(line, x, y, `curve way-${i}`))}${curve(lines[0]!, x, y)}
    ${drops.map(
      (
        drop,
      ) => svg`<line class="drop" x1=${along(x, drop.cost)} x2=${along(x, drop.cost)} y1=${down(y, drop.from)} y2=${down(y, drop.to)} />
        <circle class="drop-end" cx=${along(x, drop.cost)} cy=${down(y, drop.from)} r="3.5" />`,
    )}`;
}

function wayOut(way: CliffWay, write: (amount: string) => string, take: (way: CliffWay) => void): TemplateResult {
  const words =
    way.id === 'progressive'
      ? html`The same limits and percentages, but each applied to its slice of the cost only. Every part above the first limit sells for more than now.`
      : html`${way.held.map(
          ({ from, to, markUp }) =>
            html`From a cost of ${write(from)} ${to === null ? 'on' : `to ${write(to)}`} a part sells for its cost plus ${write(markUp)}, the mark-up of a part at the
              limit. `,
        )}All other prices stay as they are, or a money step above. Written as progressive tiers with 0 % in between.`;
  return html`<div class="way">
    <p>${words}</p>
    <button class="screen-only" @click=${() => take(way)}>${way.id === 'progressive' ? 'Use progressive tiers' : 'Hold the mark-up at the limits'}</button>
  </div>`;
}

/** What parts sell for now and by the ways out, at the limits and around them. */
export function pricesTable(rates: Rates, money: MoneyRule): TemplateResult | typeof nothing {
  const { parts } = rates;
  const write = moneyOf(rates);
  const ways = cliffWays(parts, money);
  const rows = compareMarkUps([parts, ...ways.map((way) => way.parts)], money);
  if (rows.length === 0) return nothing;
  const table = html`<table class="ruled">
    <caption>
      What parts sell for
    </caption>
    <thead>
      <tr>
        <th scope="col" class="figure">Cost</th>
        <th scope="col" class="figure">Now</th>
        ${ways.map((way) => html`<th scope="col" class="figure">${WAY_NAMES[way.id]}</th>`)}
      </tr>
    </thead>
    <tbody>
      ${rows.map(
        ({ cost, prices }, i) => html`<tr>
          <th scope="row" class="figure">${write(cost)}</th>
          ${prices.map((price, way) => html`<td class="figure">${write(price)}${way === 0 && falls(rows, i) ? html`<br /><strong>less than above</strong>` : nothing}</td>`)}
        </tr>`,
      )}
    </tbody>
  </table>`;
  return scrolling('What parts sell for', table);
}

function falls(rows: readonly { readonly prices: readonly string[] }[], i: number): boolean {
  const before = rows[i - 1]?.prices[0];
  return before !== undefined && decimal(rows[i]!.prices[0]!).lt(decimal(before));
}

/** A way out as one step, in words. */
export function wayLabel({ id }: CliffWay): string {
  return id === 'progressive' ? 'progressive tiers' : 'held mark-up at the limits';
}
