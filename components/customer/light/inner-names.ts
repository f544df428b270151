/**
 * Names of members that never leave the customer's page: of its own classes, of figures on their way from rule to rule, and
 * of its texts. A minifier shortens names of variables but must leave those of members alone, as it cannot know who reads
 * them; of these we know. None is a key of a document, a link or an answer, a public member of the element, a name of lit or
 * of the browser, nor asked for by a text (`m[kind]`), which `tests/engine/components/customer-light.test.ts` checks.
 */
export const INNER_NAMES: readonly string[] = `
  ROUND_HALF_DOWN ROUND_HALF_EVEN ROUND_HALF_UP addCharge addGroup addTax again allAnswered allLater allYes alone among amounts
  announce answer answering askFee asked atLeast atMost attempts badEmail badPhone bare because becauseWork beforeTax belowSteps best
  bookMoney branch budgetHelp byLine card carried carriedBy carries cash charge chargedHours charges cheapest child choices
  classes column coming consentNone copied copyFailed copyHash correct counts decimalPlaces deductions deliver depthOf digits
  discount discounted discountsAreEven dispatch doneNotSent doneSent draft drafts earlier ending ends enter even factor
  faults feesAsked fetchLanguage fits fitsAll fitsNone found gross guess headroom included includedBy includedCharges includedIn
  indexed inflated inside isEntering isKnown isNegative isOnStep isSending isZero judge keptIsMore kinds labourMoney
  lastDiscounted learn leave leftByPercentages leftOut lengthen less levels lineView linkHash longestOverlap look looks lte
  mayBeBetter mends minus money more moreMayBeFound mostBase needConsent needContact needName needRest neededBy net noHeadroom noWork
  notFigure notLoaded notes nothingYet ofKinds offTheWhole onAnswer onBroken onBudget onCheck onConfirm onCopy onHash onLeave onSent
  onShare onTake outer outerOf overlap overlapTrees ownCharges ownHours ownLabour ownParts packed paint pairs partCharges   patience payload places plus postFailed prepared priced pricer pricerOfOthers printed printedCharges
  propose proven qrLabel qrTooLong question ranked ranks reach reader refusals refuse refuseAsBroken refusedHelp renderAnswerAll
  renderBar renderLanguages renderNothing renderPage renderProposal renderRead renderSheet renderStep rest rule ruleBoth ruleCap
  ruleNote saidLater saidNo saidYes saved savedHours sending sent setPerson setSent settle settled sharedHours sharedSteps sharedWork
  shares sharing showQr slack slackOf slots stepCharges stepParts stepsOf strayParts subtotal suppliesRule suppliesSlack suppliesSlope
  tally task tax taxInside taxOf taxOrder taxedSums taxesByCharge taxesOf times toAnswer toConfirm toDecimalPlaces together totalAlone
  totalWith totalWithout totals twins typed unsafeCaution unsafeIsOut unsafeLeft unsafeLeftOut usable users uses weigh weights withTax
  work works you
`
  .trim()
  .split(/\s+/);
