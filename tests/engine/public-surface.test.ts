import { readFileSync } from 'node:fs';
import ts from 'typescript';
import { expect, it } from 'vitest';
import * as engine from '../../src/index.js';

/** What a change here changes for whoever uses `baysheet/engine`: a name that goes is a new major version. */
const VALUES = [
  'ShareFault',
  'chargedJobs',
  'checkCatalogue',
  'checkHistory',
  'checkRates',
  'checkVin',
  'contentHash',
  'customerCopy',
  'deferralCosts',
  'fitToBudget',
  'headroom',
  'hiddenBy',
  'listComplete',
  'needsConsent',
  'openEstimate',
  'openReply',
  'parseCatalogue',
  'parseEstimate',
  'parseRates',
  'partsRun',
  'planPartsRun',
  'priceAgain',
  'priceEstimate',
  'printProblem',
  'proposeLines',
  'ratesDifference',
  'readClockedHours',
  'readConsents',
  'recordConsent',
  'replay',
  'revise',
  'sealEstimate',
  'sealReply',
  'seekGoal',
  'standing',
  'timeFeedback',
  'workSheet',
  'writeUp',
];

const TYPES = [
  'Alternatives',
  'AuthorisationRule',
  'BudgetFit',
  'Catalogue',
  'ChargeKind',
  'ChargedJobs',
  'ClockedHours',
  'ClockedTable',
  'Condition',
  'Consent',
  'ConsentDetails',
  'ConsentNeed',
  'ConsentWay',
  'CustomerCopy',
  'Decision',
  'DeferralCost',
  'Difference',
  'Documents',
  'Estimate',
  'Goal',
  'GoalAnswer',
  'GoalOptions',
  'HistoryEntry',
  'JobWords',
  'Knob',
  'Line',
  'Opened',
  'OpenedReply',
  'Parsed',
  'PartToGet',
  'PartsPlan',
  'PartsRunEntry',
  'PriceOptions',
  'PricedAgain',
  'PricedCharge',
  'PricedEstimate',
  'PricedLine',
  'PricedOverlap',
  'PricedStep',
  'PricedTax',
  'PricedTotals',
  'Problem',
  'Proposal',
  'PublicJwk',
  'RateChange',
  'Rates',
  'ReplayAnswer',
  'ReplayOptions',
  'ReplayResult',
  'ReplaySide',
  'Reply',
  'Sealed',
  'Severity',
  'SheetEntry',
  'SheetPart',
  'Shop',
  'ShopSettings',
  'SigningKey',
  'Standing',
  'Terms',
  'TimeFeedback',
  'TrustedKeys',
  'Unanswered',
  'WorkSheet',
  'WriteUp',
];

it('the engine exports these values', () => {
  expect(Object.keys(engine).sort()).toEqual(VALUES);
});

it('the engine exports these types', () => {
  const text = readFileSync(new URL('../../src/index.ts', import.meta.url), 'utf8');
  const source = ts.createSourceFile('index.ts', text, ts.ScriptTarget.Latest);
  const names = source.statements.filter(ts.isExportDeclaration).flatMap(({ exportClause, isTypeOnly }) => {
    if (exportClause === undefined || !ts.isNamedExports(exportClause)) throw new Error('the engine exports by name only');
    return exportClause.elements.filter((element) => isTypeOnly || element.isTypeOnly).map((element) => element.name.text);
  });
  expect(names.sort()).toEqual(TYPES);
});
