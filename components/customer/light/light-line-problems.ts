/**
 * What is wrong with a line, without the words for the advisor: a customer is shown no estimate that has an error, and
 * a warning changes no figure.
 */
import { error, type Problem } from '../../../src/documents/problem.js';

const fault = (): Problem => error('line', '', '');

export const missingOperation = fault;
export const missingFee = fault;
export const missingPart = fault;
export const missingTax = fault;
export const missingClass = fault;

const nothing = (): Problem => ({ severity: 'note', code: 'line', path: '', message: '' });

export const belowSteps = nothing;
export const withoutPosition = nothing;

export const inclusionProblems = (): Problem[] => [];
