/**
 * What the estimate can be shown without: to find what fits a budget, to check an answer and to send it. Where the build
 * makes more than one file it is one by itself, loaded when the page stands.
 */
export { Answering } from './answering.js';
export { budgetProposal } from './budget-proposal.js';
export { fit } from './fit.js';
