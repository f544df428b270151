import { decimal } from '../../src/number/decimal.js';
import { printMoney } from '../../src/number/money.js';
import { markedUp } from '../../src/pricing/markup.js';
import { indexTiers } from '../../src/pricing/rate-index.js';
import type { CardLists } from '../../src/store/card-draft.js';
import { formatFigure } from '../look/format.js';
import { figureCell, readAmount, readStep, use, wordsCell } from './card-entries.js';
import type { ListGrid } from './card-lists.js';
import { type CardView, shown } from './card-view.js';

/** The mark-up tiers, each with what a part at its limit sells for. */
export const TIERS: ListGrid<'tiers'> = {
  list: 'tiers',
  label: 'Mark-up tiers',
  one: 'mark-up tier',
  spare: 'Next limit',
  columns: [
    { id: 'upTo', title: 'Cost up to', width: 120, align: 'end', help: 'The limit belongs to the tier; empty in the last one' },
    { id: 'percent', title: 'Mark-up %', width: 100, align: 'end' },
    { id: 'sells', title: 'Sells for, at the limit', width: 150, align: 'end' },
  ],
  nameOf: ({ upTo }, { locale }) => (upTo === null ? 'Above the last limit' : `Cost up to ${formatFigure(upTo, locale)}`),
  cells: (tier, view) => ({
    upTo: tier.upTo === null ? wordsCell('above that', 'text', { edit: '', marks: ['quiet'] }) : figureCell(tier.upTo, view.locale),
    percent: figureCell(tier.percent, view.locale),
    sells: shown(sellsAtLimit(tier, view), { marks: ['quiet'] }),
  }),
  enter: (column, text, entry, { locale }) => {
    if (column === 'upTo')
      return use(readStep(text === 'above that' ? '' : text, locale, 'The limit of a tier'), (upTo) => ({ entry: { ...entry, upTo } }));
    return use(readAmount(text, locale, '0'), (percent) => ({ entry: { ...entry, percent } }));
  },
  choices: () => [],
  create: (typed, view) => {
    const limit = readStep(typed('upTo'), view.locale, 'The limit of a tier');
    const upTo = 'value' in limit ? limit.value : null;
    // A new limit goes to its place and, until its percentage is typed, changes no price.
    const next =
      upTo === null ? undefined : view.state.draft.tiers.find((tier) => tier.upTo === null || decimal(tier.upTo).gt(decimal(upTo)));
    return { entry: { upTo, percent: next?.percent ?? '0' }, before: next?.key ?? null };
  },
};

function sellsAtLimit({ upTo }: CardLists['tiers'], { usable, money, locale }: CardView): string {
  if (upTo === null || usable === null) return '';
  return formatFigure(printMoney(markedUp(decimal(upTo), usable.parts.mode, indexTiers(usable.parts), money), money), locale);
}
