/** Who and where, as it stands on the documents of one estimate. An issued estimate carries its own. */

import { today } from "../acts/today.js";
import type { Paperwork, Party } from "../estimating/input.js";
import { type Estimate, estimates, priced } from "../records/estimates.js";
import type { Made } from "../records/noun.js";
import type { Owner } from "../records/owners.js";
import type { Settings } from "../records/settings.js";
import { shortHead } from "../records/trail.js";
import { languageOf, usualLocale } from "../wording/tongue.js";
import type { Desk } from "./act.js";
import type { JobAsItStands } from "./job.js";

/** Without a revision: of a unit that no estimate was issued for. */
type Papered = Pick<Estimate, "input" | "sheet" | "issuedAt"> & { readonly revision?: number };

export function paperworkOf({ job, owner, settings, head }: JobAsItStands, estimate: Papered, now: Date): Paperwork {
  const own = estimate.input.paperwork;
  if (estimate.issuedAt && own) return own;
  return {
    ...own,
    ...shopPaperwork(settings, estimate.input.policy?.profile, owner),
    ...decidedFor(own),
    ...{ owner: party(owner), number: job.number, ...(estimate.revision && { revision: estimate.revision }) },
    ...namesFor(settings, owner, estimate),
    ...{ date: today(now, settings.timeZone), chainHead: shortHead(head) },
  };
}

/** Of the shop's names in the owner's language, those that this estimate has. */
function namesFor({ names, ...shop }: Settings, owner: Owner, { input, sheet }: Papered): Pick<Paperwork, "names"> {
  const said = Object.entries(names?.[tongueFor(shop, owner).language!] ?? {});
  if (said.length === 0) return {};
  const text = JSON.stringify([input, sheet, shop.terms, shop.profileTerms]);
  const used = said.filter(([name]) => text.includes(JSON.stringify(name).slice(1, -1)));
  return used.length > 0 ? { names: Object.fromEntries(used) } : {};
}

/** The draft with some of its paperwork changed; an undefined key takes it away. */
export async function withPaperwork(
  { db, at }: Desk,
  job: JobAsItStands,
  draft: Estimate,
  changes: { readonly [K in keyof Paperwork]?: Paperwork[K] | undefined },
): Promise<Made<Estimate>> {
  const { paperwork: before, ...rest } = draft.input;
  const after = Object.fromEntries(Object.entries({ ...before, ...changes }).filter(([, value]) => value !== undefined));
  const input = { ...rest, ...(Object.keys(after).length > 0 && { paperwork: after as Paperwork }) };
  const { problems: _, ...made } = await priced(job.inputOf({ ...draft, input }));
  return estimates.changed(db, draft, { input, ...made }, at);
}

/** What was decided for one estimate, whatever is usual. */
export const decidedFor = ({ paper, detail, summary, packages, spellings }: Paperwork = {}): Paperwork => ({
  ...(paper && { paper }),
  ...(detail && { detail }),
  ...(summary && { summary }),
  ...(packages && { packages }),
  ...(spellings && { spellings }),
});

/** What the shop's settings put on a document for an owner under an agreement profile. */
export function shopPaperwork(shop: Settings, profile?: string, owner?: Owner): Paperwork {
  const terms = (profile !== undefined && shop.profileTerms?.[profile]) || shop.terms;
  return {
    shop: party(shop),
    ...(terms && { terms }),
    paper: shop.paper,
    detail: shop.detail,
    ...tongueFor(shop, owner),
    ...(shop.footer && { footer: shop.footer }),
    ...(shop.logo && { logo: shop.logo }),
  };
}

/** The owner's language and way of writing figures, or the shop's. Figures follow the language where only that was chosen. */
function tongueFor(shop: Settings, owner?: Owner): Pick<Paperwork, "language" | "locale"> {
  const [ours, theirs] = [languageOf(shop.language), languageOf(owner?.language ?? shop.language)];
  return { language: theirs, locale: owner?.locale ?? (theirs === ours ? shop.locale : usualLocale(theirs)) };
}

function party({ name, address, phone, email, taxNumber, registration }: Party): Party {
  return {
    name,
    ...(address && { address }),
    ...(phone && { phone }),
    ...(email && { email }),
    ...(taxNumber && { taxNumber }),
    ...(registration && { registration }),
  };
}
