/**
 * Loads parts of the page in files by themselves, where the build makes more than one. In the build of one file
 * `light/at-once.ts` takes the place of this one.
 */
export const loadRest = () => import('./rest.js');
export const loadSpanish = () => import('./messages/es.js');
export const loadFrench = () => import('./messages/fr.js');
