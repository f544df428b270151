import { fuzzBackups } from './fuzz-backup.js';
import { fuzzDocuments } from './fuzz-documents.js';
import { fuzzLinks, fuzzReplies } from './fuzz-links.js';
import { fuzzTables } from './fuzz-tables.js';
import { deferralProof, longFiguresProof, oracleProof } from './oracle.js';
import type { Proof } from './proof.js';
import { secretsProof } from './secrets.js';
import { tamperedProof } from './tampered.js';

export const FUZZ: readonly Proof[] = [...fuzzDocuments, fuzzLinks, fuzzReplies, fuzzTables, fuzzBackups];

/** Every proof, in the order in which they run. */
export const PROOFS: readonly Proof[] = [oracleProof, longFiguresProof, deferralProof, tamperedProof, ...FUZZ, secretsProof];
