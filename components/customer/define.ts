import { define } from '../define.js';
import { BaysheetCustomer } from './baysheet-customer.js';

define('baysheet-customer', BaysheetCustomer);

declare global {
  interface HTMLElementTagNameMap {
    'baysheet-customer': BaysheetCustomer;
  }
}

export { BaysheetCustomer };
