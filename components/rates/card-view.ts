import type { Catalogue } from '../../src/documents/catalogue.js';
import type { Problem } from '../../src/documents/problem.js';
import { parseRates, type Rates } from '../../src/documents/rates.js';
import { minorDigits, type MoneyRule, moneyRule } from '../../src/number/money.js';
import { checkCard } from '../../src/pricing/check-card.js';
import { cellKey } from '../../src/store/commands.js';
import { type CardCommand, type CardState, type CardStore, draftRates, reduceCard } from '../../src/store/card-draft.js';
import type { SheetCell } from '../grid/sheet.js';

/** All that the grids of a rate card are made from. */
export interface CardView {
  readonly state: CardState;
  /** The card as it stands, whether or not it can be used. */
  readonly rates: Rates;
  /** The same as a card to price by; null while something in it cannot be. */
  readonly usable: Rates | null;
  readonly problems: readonly Problem[];
  readonly money: MoneyRule;
  readonly locale: string;
  /** What it is checked against. */
  readonly catalogue: Catalogue | null;
}

/** The store of a card as it is shown. The same view until the card or the catalogue changes. No DOM. */
export class CardModel {
  private last: CardView | null = null;

  constructor(readonly store: CardStore) {}

  view(catalogue: Catalogue | null): CardView {
    const state = this.store.getState();
    const { last } = this;
    if (last?.state === state && last.catalogue === catalogue) return last;
    const same = last !== null && last.state.draft === state.draft && last.catalogue === catalogue;
    this.last = same ? { ...last, state } : look(state, catalogue);
    return this.last;
  }
}

function look(state: CardState, catalogue: Catalogue | null): CardView {
  const rates = draftRates(state.draft);
  const read = parseRates(rates);
  const { currency, moneyStep, rounding, locale } = rates;
  return {
    state,
    rates,
    usable: read.ok ? read.value : null,
    problems: read.ok ? [...read.problems, ...checkCard(read.value, catalogue)] : read.problems,
    money: moneyRule(minorDigits(currency) === null ? 'USD' : currency, moneyStep, rounding),
    locale,
    catalogue,
  };
}

/** What one entry comes to: commands, or the reason why it cannot be used. */
export type CardOutcome = { readonly commands: readonly CardCommand[] } | { readonly reason: string };

/** A cell that only shows. */
export function shown(text: string, more: Partial<SheetCell> = {}): SheetCell {
  return { text, editor: 'none', ...more };
}

/** Cells with the entries of the person in them: what cannot be used stays, with the reason. */
export function withEntries(cells: Readonly<Record<string, SheetCell>>, row: string, { state }: CardView): Record<string, SheetCell> {
  return Object.fromEntries(
    Object.entries(cells).map(([column, cell]) => {
      const pending = state.pending.get(cellKey(row, column));
      return [column, pending === undefined ? cell : { ...cell, text: pending.text, edit: pending.text, invalid: pending.reason }];
    }),
  );
}

/** Carries out the edits of one gesture one after the other, so that each sees what the ones before it did. */
export class CardGesture {
  readonly commands: CardCommand[] = [];
  /** Reasons why entries could not be used. */
  readonly refused: string[] = [];

  constructor(public state: CardState) {}

  run(...commands: readonly CardCommand[]): void {
    for (const command of commands) {
      this.commands.push(command);
      this.state = reduceCard(this.state, command);
    }
  }

  enter(row: string, column: string, text: string, outcome: CardOutcome): void {
    const key = cellKey(row, column);
    if ('reason' in outcome) {
      this.refused.push(outcome.reason);
      this.run({ do: 'pend', key, entry: { text, reason: outcome.reason } });
      return;
    }
    if (this.state.pending.has(key)) this.run({ do: 'pend', key, entry: null });
    this.run(...outcome.commands);
  }
}
