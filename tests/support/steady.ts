/**
 * Before each file of the project `engine`: whatever is drawn at random is the same each time, so that a run which was good stays
 * good. `npm run prove` runs the tests with other draws each time; BAYSHEET_SEED brings those back.
 */
import fc from 'fast-check';

fc.configureGlobal({ seed: Number(process.env['BAYSHEET_SEED'] ?? 1) });
