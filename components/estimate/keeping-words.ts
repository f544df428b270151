import type { Keeping, KeepingState } from './keeping.js';
import { usableLocale } from '../look/format.js';

type Said = Pick<Keeping, 'isInBrowser' | 'savedAt'> & { readonly state: KeepingState };

/** How it stands with the saving, in a few words that stand among the tools. */
export function savingWords({ state, isInBrowser, savedAt }: Said, locale: string): string {
  const where = isInBrowser ? ' in this browser' : '';
  switch (state.is) {
    case 'off':
      return '';
    case 'opening':
      return 'Opening …';
    case 'reading':
      return 'Read only: open in another tab';
    case 'failed':
      return `Not saved${where}`;
    case 'conflict':
      return 'Not saved: changed elsewhere';
    default:
      if (savedAt !== null) return `Saved${where} ${momentText(savedAt, locale)}`;
      return state.is === 'saving' ? 'Saving …' : '';
  }
}

/** The time of day; with the day where that is another one. */
export function momentText(moment: Date, locale: string, now = new Date()): string {
  if (Number.isNaN(moment.getTime())) return '';
  const time = new Intl.DateTimeFormat(usableLocale(locale), { timeStyle: 'short' }).format(moment);
  if (moment.toDateString() === now.toDateString()) return time;
  return `${new Intl.DateTimeFormat(usableLocale(locale), { dateStyle: 'medium' }).format(moment)}, ${time}`;
}
