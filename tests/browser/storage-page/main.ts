/** Puts the stores where a test can reach them. */
import { openDatabase } from '../../../components/storage/browser-database.js';
import { ClusterConnection } from '../../../components/storage/cluster-connection.js';
import { openClusterStore } from '../../../components/storage/cluster.js';
import * as storage from '../../../components/storage/index.js';
import * as contract from '../../support/storage-contract.js';

const harness = { ...storage, ...contract, openDatabase, openClusterStore, ClusterConnection };

declare global {
  interface Window {
    harness: typeof harness;
  }
}

window.harness = harness;
document.documentElement.dataset['ready'] = '';
