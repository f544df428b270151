/** Puts the stores where a test can reach them. */
import { openDatabase } from '../../../components/storage/browser-database.js';
import * as storage from '../../../components/storage/index.js';
import * as contract from '../../support/storage-contract.js';

const harness = { ...storage, ...contract, openDatabase };

declare global {
  interface Window {
    harness: typeof harness;
  }
}

window.harness = harness;
document.documentElement.dataset['ready'] = '';
