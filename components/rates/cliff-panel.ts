import { html, nothing, svg, type TemplateResult } from 'lit';
import type { MarkUp, Rates } from '../../src/documents/rates.js';
import { decimal } from '../../src/number/decimal.js';
import { type MoneyRule, printMoney, roundMoney } from '../../src/number/money.js';
import { cliffs } from '../../src/pricing/check-rates.js';
import { type CliffWay, cliffWays, compareMarkUps, pictureEnd, priceCorners } from '../../src/pricing/cliff-ways.js';
import { formatMoney } from '../look/format.js';
import { along, curve, down, plot } from './plots/plot.js';
import { scaleFor } from './plots/scale.js';

const WAY_NAMES: Readonly<Record<CliffWay['id'], string>> = { progressive: 'Progressive tiers', held: 'Held mark-up' };

/**
 * What a part sells for against what it costs: the picture with every drop marked, the ways out of a cliff with one press
 * each, and the same prices as a table.
 */
export function markUpPanel(rates: Rates, money: MoneyRule, take: (way: CliffWay) => void): TemplateResult {
  const write = (amount: string): string => formatMoney(amount, rates.currency, rates.locale);
  const drops = dropsOf(rates.parts, money);
  const ways = cliffWays(rates.parts, money);
  return html`<div class="mark-up" part="mark-up">
    ${picture(rates.parts, drops, ways, write)} ${drops.length === 0 ? html`<p class="quiet">A dearer part never sells for less.</p>` : cliffWords(rates, drops, write)}
    ${ways.map((way) => wayOut(way, write, take))} ${pricesTable(rates.parts, ways, money, write)}
  </div>`;
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

function picture(parts: MarkUp, drops: readonly Drop[], ways: readonly CliffWay[], write: (amount: string) => string): TemplateResult {
  const end = pictureEnd(parts);
  const lines = [parts, ...ways.map((way) => way.parts)].map((each) => priceCorners(each, end).map(({ cost, price }) => [cost, price] as const));
  const x = scaleFor(['0', end]);
  const y = scaleFor(['0', ...lines.map((line) => line.at(-1)![1]), ...drops.map(({ from }) => from)]);
  const told = drops.map(({ cost, from, to }) => `at a cost of ${write(cost)} it falls from ${write(from)} to ${write(to)}`);
  const label = `Sell price of a part against its cost up to ${write(end)}. ${told.length === 0 ? 'The price rises all the way.' : `The price falls: ${told.join('; ')}.`} The prices are in the table below.`;
  return html`<figure>
    ${plot(
      { label, x, y, xTitle: 'Cost', yTitle: 'Sells for', write },
      svg`${lines.slice(1).map((line, i) => curve(line, x, y, `curve way-${i}`))}${curve(lines[0]!, x, y)}
        ${drops.map(
          (drop) => svg`<line class="drop" x1=${along(x, drop.cost)} x2=${along(x, drop.cost)} y1=${down(y, drop.from)} y2=${down(y, drop.to)} />
            <circle class="drop-end" cx=${along(x, drop.cost)} cy=${down(y, drop.from)} r="3.5" />`,
        )}`,
    )}
    ${ways.length === 0
      ? nothing
      : html`<figcaption class="quiet">
          Whole line: now${drops.length === 0 ? '' : ', with a dot where it falls'}. Dashed: ${WAY_NAMES.progressive.toLowerCase()}.${ways.length > 1
            ? ` Dotted: ${WAY_NAMES.held.toLowerCase()}.`
            : ''}
        </figcaption>`}
  </figure>`;
}

function cliffWords(rates: Rates, drops: readonly Drop[], write: (amount: string) => string): TemplateResult {
  const problems = cliffs(rates);
  return html`<ul class="list">
    ${drops.map(
      ({ cost, from, to }, i) => html`<li class="problem warning">
        <strong>Falls at a cost of ${write(cost)}: from ${write(from)} to ${write(to)}.</strong> <span class="hint">${problems[i]?.message ?? ''}</span>
      </li>`,
    )}
  </ul>`;
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

function pricesTable(parts: MarkUp, ways: readonly CliffWay[], money: MoneyRule, write: (amount: string) => string): TemplateResult | typeof nothing {
  const rows = compareMarkUps([parts, ...ways.map((way) => way.parts)], money);
  if (rows.length === 0) return nothing;
  return html`<table class="ruled">
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
          ${prices.map((price, way) => html`<td class="figure">${write(price)}${way === 0 && falls(rows, i) ? html` <strong>less than the row above</strong>` : nothing}</td>`)}
        </tr>`,
      )}
    </tbody>
  </table>`;
}

function falls(rows: readonly { readonly prices: readonly string[] }[], i: number): boolean {
  const before = rows[i - 1]?.prices[0];
  return before !== undefined && decimal(rows[i]!.prices[0]!).lt(decimal(before));
}

/** A way out as one step, in words. */
export function wayLabel({ id }: CliffWay): string {
  return id === 'progressive' ? 'progressive tiers' : 'held mark-up at the limits';
}

