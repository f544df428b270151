import { deferralProof, longFiguresProof, oracleProof } from './oracle.js';
import type { Proof } from './proof.js';

/** Every proof, in the order in which they run. */
export const PROOFS: readonly Proof[] = [oracleProof, longFiguresProof, deferralProof];
