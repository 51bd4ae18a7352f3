export { accountNotices } from "./accountNotices.js";
export { accuracyTexts, biasText, marginText } from "./accuracy.js";
export { adjustmentTitle } from "./adjustment.js";
export { chainFaultText, logRefusalText, spokenFieldText, unagreedText } from "./agreement.js";
export { type Answered, answeredText } from "./answered.js";
export { type DayName, dayName } from "./calendar.js";
export { categoryText, causesText, causeText } from "./cause.js";
export { cautionAlone, cautionText, DEFER } from "./caution.js";
export { fieldText, figureText, markText, rowTitle, signedMoney } from "./change.js";
export {
  closeOutCategoryName,
  closeOutRowTitle,
  foundOrNotText,
  NO_TIME_LOGGED,
  riskWorthText,
  scopeCauseText,
} from "./closeout.js";
export {
  accountBasisText,
  limitText,
  notChargedText,
  oldPartsText,
  partStateText,
  paymentText,
  warrantyText,
} from "./closeoutAccount.js";
export {
  changedFigure,
  changeText,
  coverageText,
  evidenceText,
  proposalNote,
  standardName,
  takenText,
} from "./closeoutProposal.js";
export { day } from "./day.js";
export { detailText } from "./detail.js";
export { duration } from "./duration.js";
export { earnedText } from "./earned.js";
export type { Words } from "./english/index.js";
export { fastenersText } from "./fastener.js";
export { jobsIn } from "./jobs.js";
export { boardsName, lineTitle } from "./line.js";
export { lineHeading } from "./lineHeading.js";
export { lineNote } from "./lineNote.js";
export { counted, listed } from "./list.js";
export { signedMark } from "./mark.js";
export { clock, moment } from "./moment.js";
export { money, unitPrice } from "./money.js";
export { plainNumber } from "./number.js";
export { type AnswerSubject, ownerAnswerText } from "./ownerAnswer.js";
export { ownerCautionText } from "./ownerCaution.js";
export { type MailAbout, type OwnerMail, ownerMail } from "./ownerMail.js";
export { UNCOVERED_TEXT } from "./partsToGet.js";
export { chance, percent } from "./percent.js";
export { pricingText } from "./pricing.js";
export { problemText } from "./problem.js";
export { LOCAL_LAW, profileNotices, profileSourceText } from "./profile.js";
export { unreadyText } from "./profileUnready.js";
export { AS_COUNTED_TEXT, plannedBuyText, raisedText, riskText, triedText } from "./risk.js";
export { axisOf, heldName, type Mark, marksOf, riskCurve } from "./riskCurve.js";
export { riskSourceText } from "./riskSource.js";
export { roundMoney } from "./roundMoney.js";
export { ruleText } from "./rule.js";
export { scarcityText } from "./scarcity.js";
export { sourceText } from "./source.js";
export { spread } from "./spread.js";
export { taxRoundingText } from "./taxRounding.js";
export { ticks } from "./ticks.js";
export type { Spoken, Tongue } from "./tongue.js";
export { UNIT_DETAILS, type UnitDetail, unitDetailText } from "./unitChange.js";
export { varianceName, varianceText } from "./variance.js";
export { warningText } from "./warning.js";
export { whyText } from "./why.js";
export { workTitle } from "./workTitle.js";
