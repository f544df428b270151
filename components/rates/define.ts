import { define } from '../define.js';
import { BaysheetRates } from './baysheet-rates.js';

define('baysheet-rates', BaysheetRates);

declare global {
  interface HTMLElementTagNameMap {
    'baysheet-rates': BaysheetRates;
  }
}

export { BaysheetRates };
