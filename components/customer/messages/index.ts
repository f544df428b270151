import { en, type Messages } from './en.js';
import { es } from './es.js';
import { fr } from './fr.js';

export type { Messages };

export const LANGUAGES = { en: 'English', es: 'Español', fr: 'Français' } as const;
export type Language = keyof typeof LANGUAGES;

export const messages: Readonly<Record<Language, Messages>> = { en, es, fr };

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
