import { loadFrench, loadSpanish } from '../later.js';
import { en, type Messages } from './en.js';

export type { Messages };

export const LANGUAGES = { en: 'English', es: 'Español', fr: 'Français' } as const;
export type Language = keyof typeof LANGUAGES;

const texts = new Map<Language, Messages>([['en', en]]);

/** Nobody waits for a language that they do not read; English is always there. */
const LOAD: Readonly<Partial<Record<Language, () => Promise<Messages>>>> = {
  es: () => loadSpanish().then(({ es }) => es),
  fr: () => loadFrench().then(({ fr }) => fr),
};

/** The texts of a language, or undefined where they have not been loaded. */
export function messagesOf(language: Language): Messages | undefined {
  return texts.get(language);
}

/** Loads the texts of a language. @returns whether they are there; without a network they may not be */
export async function loadMessages(language: Language): Promise<boolean> {
  if (texts.has(language)) return true;
  const loaded = await LOAD[language]!().catch(() => null);
  if (loaded !== null) texts.set(language, loaded);
  return loaded !== null;
}

/** The first of these language tags that there are texts for: `['fr-CA', 'en']` → `fr`. */
export function chooseLanguage(wanted: readonly string[]): Language {
  for (const tag of wanted) {
    const language = tag.toLowerCase().split('-')[0]!;
    if (Object.hasOwn(LANGUAGES, language)) return language as Language;
  }
  return 'en';
}

/** How figures and dates are written: the reader's language with the shop's country (`fr`, `en-CA` → `fr-CA`). */
export function localeOf(language: Language, shopLocale: string): string {
  const region = /-([A-Za-z]{2}|\d{3})$/.exec(shopLocale)?.[1];
  return region === undefined ? language : `${language}-${region}`;
}
