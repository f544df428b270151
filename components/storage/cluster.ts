/** `baysheet/storage/cluster`: documents kept in a cluster. Apart, so that nobody else loads its client library. */
export { type ClusterStore, type ClusterStoreOptions, openClusterStore } from './cluster-store.js';
