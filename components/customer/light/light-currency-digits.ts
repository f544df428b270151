/**
 * The decimal places of currencies that have other than two, by ISO 4217. The shop's sheet knows the whole list and
 * seals no estimate in a currency that is not on it, so that for a customer every other one has two. A test holds it
 * against `src/number/currency-digits.ts`.
 */
const BY_DIGITS: readonly (readonly [digits: number, codes: string])[] = [
  [0, 'BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XAG XAU XBA XBB XBC XBD XDR XOF XPD XPF XPT XSU XTS XUA XXX'],
  [3, 'BHD IQD JOD KWD LYD OMR TND'],
  [4, 'CLF UYW'],
];

export const CURRENCY_DIGITS: ReadonlyMap<string, number> = new Map(
  BY_DIGITS.flatMap(([digits, codes]) => codes.split(' ').map((code) => [code, digits] as const)),
);
