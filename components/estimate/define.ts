import { define } from '../define.js';
import { BaysheetEstimate } from './baysheet-estimate.js';

define('baysheet-estimate', BaysheetEstimate);

declare global {
  interface HTMLElementTagNameMap {
    'baysheet-estimate': BaysheetEstimate;
  }
}

export { BaysheetEstimate };
export type { BaysheetEventMap, ChangeDetail, ProblemDetail, SaveDetail, ShareDetail } from '../events.js';
