/** `../later.ts` for the build that puts everything into one file: what is in the file already need not be loaded. */
import { es } from '../messages/es.js';
import { fr } from '../messages/fr.js';
import { Answering, budgetProposal, fit } from '../rest.js';

export const loadRest = async () => ({ Answering, budgetProposal, fit });
export const loadSpanish = async () => ({ es });
export const loadFrench = async () => ({ fr });
