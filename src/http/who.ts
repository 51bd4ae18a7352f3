/**
 * Who may do what: each route of the app, by the pattern it is declared with. The gate reads it and nothing else decides. A route without
 * a row stops the start; a row without a route, and a route that answers otherwise than its row says, fail tests/http/who.test.ts.
 */
import type { Scope } from "../records/apiTokens.js";
import type { Role } from "../records/staff.js";

export interface Right {
  /**
   * everyone: nothing is asked, not even of the shop whether it is set up. guest: nobody needs to be signed in. owner: whoever holds a live
   * link, which the handler looks at. founder: whoever is let in until someone has an account. technician: whoever is signed in, a manager
   * too; before anyone has an account, whoever is let in. manager: technicians are refused.
   */
  readonly who: "everyone" | "guest" | "owner" | "founder" | "technician" | "manager";
  /** What a token needs; for what is a manager's, `admin` beside it. Absent: pages are not for tokens. */
  readonly scope?: Exclude<Scope, "admin">;
  /** Means nothing before someone has an account. */
  readonly ofAccounts?: true;
}

const everyone = { who: "everyone" } as const satisfies Right;
const guest = { who: "guest" } as const satisfies Right;
const owner = { who: "owner" } as const satisfies Right;
const founder = { who: "founder" } as const satisfies Right;
const page = { who: "technician" } as const satisfies Right;
const managersPage = { who: "manager" } as const satisfies Right;
const ownAccount = { who: "technician", ofAccounts: true } as const satisfies Right;
const accounts = { who: "manager", ofAccounts: true } as const satisfies Right;
const accountsLook = { who: "manager", scope: "read", ofAccounts: true } as const satisfies Right;
const accountsChange = { who: "manager", scope: "write", ofAccounts: true } as const satisfies Right;
/** By programs: looked at, or reckoned and kept nowhere. */
const look = { who: "technician", scope: "read" } as const satisfies Right;
const change = { who: "technician", scope: "write" } as const satisfies Right;
const managersLook = { who: "manager", scope: "read" } as const satisfies Right;
const managersChange = { who: "manager", scope: "write" } as const satisfies Right;

export const WHO = {
  // Made when the app is built, and open: the assets, at the addresses the build gives them.
  "/health": { GET: everyone },

  // What is told of the program, never of the shop.
  "/help": { GET: guest },
  "/help/:slug": { GET: guest },

  // The owner's page, by link.
  "/o": { GET: guest },
  "/o/entry": { POST: guest },
  "/o/estimate": { GET: owner },
  "/o/estimate.pdf": { GET: owner },
  "/o/final-account.pdf": { GET: owner },
  "/o/photo": { GET: owner },
  "/o/calendar.ics": { GET: owner },
  "/o/price": { POST: owner },
  "/o/check": { POST: owner },
  "/o/agreement": { POST: owner },
  "/o/question": { POST: owner },

  // Who gets in.
  "/sign-in": { GET: guest, POST: guest },
  "/sign-in/passkey": { POST: guest },
  "/sign-in/new-passkey": { POST: guest },
  "/sign-in/invitation": { GET: guest, POST: guest },
  "/sign-in/secret": { GET: guest, POST: guest },
  "/sign-out": { POST: guest },
  "/set-up": { GET: founder, POST: founder },
  "/set-up/later": { POST: founder },
  "/account": { GET: ownAccount },
  "/account/passkeys": { POST: ownAccount },
  "/account/passkeys/:id/name": { POST: ownAccount },
  "/account/passkeys/:id/removal": { POST: ownAccount },
  "/account/passphrase": { POST: ownAccount },
  "/account/passphrase/removal": { POST: ownAccount },
  "/account/codes": { POST: ownAccount },
  "/account/sessions/:id/end": { POST: ownAccount },
  "/account/sessions/end-others": { POST: ownAccount },
  "/staff": { GET: accounts, POST: accounts },
  "/staff/:id/invitation": { POST: accounts },
  "/staff/:id/role": { POST: accounts },
  "/staff/:id/closing": { POST: accounts },
  "/staff/:id/opening": { POST: accounts },
  "/tokens": { GET: accounts, POST: accounts },
  "/tokens/:id/revocation": { POST: accounts },

  // The desk: pages of jobs.
  "/": { GET: page },
  "/find": { GET: page },
  "/estimates/new": { GET: page, POST: page },
  "/estimates/:id{[^/.]+}": { GET: page, POST: page },
  "/estimates/preview.pdf": { POST: page },
  "/estimates/bench-preview.pdf": { POST: page },
  "/estimates/shop-preview.pdf": { POST: page },
  "/estimates/:file{[^/]+\\.pdf}": { GET: page },
  "/estimates/:id/lines": { GET: page, POST: page },
  "/estimates/:id/bench-sheet.pdf": { GET: page },
  "/estimates/:id/intake-receipt.pdf": { GET: page },
  "/estimates/:id/shop-copy.pdf": { GET: page },
  "/jobs/:id": { GET: page },
  "/jobs/:id/revisions": { POST: page },
  "/jobs/:id/draft/withdrawal": { GET: page, POST: page },
  "/jobs/:id/issue": { GET: page, POST: page },
  "/jobs/:id/extra-fault": { GET: page, POST: page },
  "/jobs/:id/changes": { GET: page },
  "/jobs/:id/answers": { GET: page, POST: page },
  "/jobs/:id/questions/:question/replies": { POST: page },
  "/jobs/:id/links": { GET: page, POST: page },
  "/demo/owners-page": { POST: page },
  "/jobs/:id/links/:link/withdrawal": { GET: page, POST: page },
  "/jobs/:id/bench": { GET: page, POST: page },
  "/jobs/:id/work-log": { GET: page, POST: page },
  "/jobs/:id/work-log/:entry/withdrawal": { GET: page, POST: page },
  "/jobs/:id/close-out": { GET: page, POST: page },
  "/jobs/:id/hand-back": { GET: page, POST: page },
  "/jobs/:id/payments": { GET: page, POST: page },
  "/jobs/:id/payments/:payment/withdrawal": { POST: page },
  "/jobs/:id/payments/:payment/receipt.pdf": { GET: page },
  "/jobs/:id/final-account.pdf": { GET: page },
  "/jobs/:id/calendar.ics": { GET: page },
  "/jobs/:id/photos": { GET: page, POST: page },
  "/jobs/:id/photos/on-paper": { POST: page },
  "/jobs/:id/photos/:photo/removal": { POST: page },
  "/photos/:id": { GET: page },
  "/jobs/:id/trail": { GET: page },
  "/jobs/:id/papers": { GET: page, POST: page },
  "/jobs/:id/parts": { GET: page },

  // Parts, models, prices and the shop itself.
  "/parts": { GET: page },
  "/parts/order-list.csv": { GET: page },
  "/parts/orders": { POST: page },
  "/parts/orders/:id": { GET: page },
  "/parts/orders/:id/ending": { POST: page },
  "/parts/goods-in": { GET: page, POST: page },
  "/parts/goods-in/:id/tests": { GET: page, POST: page },
  "/parts/kinds": { GET: page, POST: page },
  "/parts/kinds/new": { GET: page },
  "/parts/kinds/:id": { GET: page, POST: page },
  "/parts/kinds/:id/merging": { POST: page },
  "/parts/kinds/:id/offers": { GET: page, POST: page },
  "/parts/kinds/:id/withdrawal": { POST: page },
  "/parts/offers/:id": { GET: page, POST: page },
  "/parts/offers/:id/confirmation": { GET: page, POST: page },
  "/parts/offers/:id/withdrawal": { POST: page },
  "/parts/donors": { GET: page, POST: page },
  "/parts/donors/new": { GET: page },
  "/parts/donors/:id": { GET: page, POST: page },
  "/parts/donors/:id/pulls": { POST: page },
  "/parts/donors/:id/withdrawal": { POST: page },
  "/parts/rates": { GET: page, POST: page },
  "/parts/rates/:id": { GET: page, POST: page },
  "/parts/rates/:id/withdrawal": { POST: page },
  "/parts/stock": { GET: page, POST: page },
  "/parts/stock/:kind": { GET: page, POST: page },
  "/models": { GET: page },
  "/models/new": { GET: page, POST: page },
  "/models/import": { GET: page, POST: page },
  "/models/:id": { GET: page },
  "/models/:id/edit": { GET: page, POST: page },
  "/models/:file{[^/]+\\.json}": { GET: page },
  "/looking-back": { GET: page },
  "/looking-back/rate-book": { GET: page, POST: managersPage },
  "/looking-back/rate-book/read": { POST: page },
  "/looking-back/rate-book/what-if": { POST: page },
  "/rate-book": { GET: page, POST: managersPage },
  "/rate-book/:part": { GET: page, POST: managersPage },
  "/rate-book/:part/:entry": { GET: page, POST: managersPage },
  "/settings": { GET: page, POST: managersPage },
  "/settings/logo": { GET: page, POST: managersPage },
  "/settings/sending": { GET: managersPage, POST: managersPage },
  "/settings/sending/test": { POST: managersPage },
  "/data": { GET: page },
  "/data/in/:what": { GET: page, POST: page },
  "/data/owners": { GET: managersPage },
  "/data/owners/:id": { GET: managersPage },
  "/data/owners/:id/erasure": { POST: managersPage },

  // Programs: what is on record.
  "/openapi.json": { GET: look },
  "/api": { GET: page },
  "/problems": { GET: look },
  "/problems/:name": { GET: look },
  "/api/owners": { GET: look, POST: change },
  "/api/owners/:id": { GET: look, PUT: change },
  "/api/owners/:id/file": { GET: managersLook },
  "/api/owners/:id/erasure": { POST: managersChange },
  "/api/units": { GET: look, POST: change },
  "/api/units/:id": { GET: look, PUT: change },
  "/api/models": { GET: look, POST: change },
  "/api/models/:id": { GET: look, PUT: change },
  "/api/rate-books": { GET: look, POST: managersChange },
  "/api/rate-books/:id": { GET: look, PUT: managersChange },
  "/api/rate-books/:id/versions/:version": { GET: look },
  "/api/rate-books/:id/changes": { POST: managersChange },
  "/api/part-kinds": { GET: look, POST: change },
  "/api/part-kinds/:id": { GET: look, PUT: change },
  "/api/part-kinds/:id/withdrawal": { POST: change },
  "/api/part-kinds/:id/merging": { POST: change },
  "/api/part-kinds/:id/standing": { GET: look },
  "/api/part-kinds/:id/movements": { GET: look },
  "/api/offers": { GET: look, POST: change },
  "/api/offers/:id": { GET: look, PUT: change },
  "/api/offers/:id/confirmation": { POST: change },
  "/api/offers/:id/withdrawal": { POST: change },
  "/api/donors": { GET: look, POST: change },
  "/api/donors/:id": { GET: look, PUT: change },
  "/api/donors/:id/withdrawal": { POST: change },
  "/api/donors/:id/pulls": { POST: change },
  "/api/exchange-rates": { GET: look, POST: change },
  "/api/exchange-rates/:id": { GET: look, PUT: change },
  "/api/exchange-rates/:id/withdrawal": { POST: change },
  "/api/settings": { GET: look, PUT: managersChange },
  "/api/send-hook": { GET: managersLook, PUT: managersChange },
  "/api/send-hook/attempts": { GET: managersLook },
  "/api/send-hook/test": { POST: managersChange },
  "/api/logos": { POST: managersChange },
  "/api/logos/:id": { GET: look },
  "/api/search": { GET: look },
  "/api/accuracy": { GET: look },
  "/api/accuracy/proposals": { GET: look },
  "/api/imports/:what": { POST: change },
  "/api/csv/:name": { GET: managersLook },
  "/api/backup": { GET: managersLook },
  "/api/restore": { POST: managersChange },

  // Programs: who gets in.
  "/api/staff": { GET: accountsLook, POST: accountsChange },
  "/api/staff/:id": { GET: accountsLook },
  "/api/staff/:id/invitations": { POST: accountsChange },
  "/api/staff/:id/role": { PUT: accountsChange },
  "/api/staff/:id/closing": { POST: accountsChange },
  "/api/staff/:id/opening": { POST: accountsChange },
  "/api/sign-ins": { GET: accountsLook },
  "/api/tokens": { GET: accountsLook, POST: accountsChange },
  "/api/tokens/:id/revocation": { POST: accountsChange },

  // Programs: reckoning, jobs and estimates.
  "/api/estimate": { POST: look },
  "/api/estimate/risk": { POST: look },
  "/api/estimate/refined": { POST: look },
  "/api/estimate.pdf": { POST: look },
  "/api/bench-sheet.pdf": { POST: look },
  "/api/shop-copy.pdf": { POST: look },
  "/api/estimates": { GET: look, POST: change },
  "/api/estimates/:id": { GET: look, PUT: change },
  "/api/estimates/:id/sheet": { GET: look },
  "/api/estimates/:id/keeping": { POST: managersChange },
  "/api/estimates/:id/lines": { POST: change },
  "/api/estimates/:id/lines.csv": { GET: look },
  "/api/estimates/:id/estimate.pdf": { GET: look },
  "/api/estimates/:id/bench-sheet.pdf": { GET: look },
  "/api/estimates/:id/shop-copy.pdf": { GET: look },
  "/api/estimates/:id/quotation.xml": { GET: look },
  "/api/estimates/:id/withdrawal": { POST: change },
  "/api/estimates/:id/issue": { GET: look, POST: change },
  "/api/estimates/:id/agreements": { POST: change },
  "/api/estimates/:id/agreements/preview": { POST: look },
  "/api/estimates/:id/owner-links": { GET: look, POST: change },
  "/api/owner-links/:id/withdrawal": { POST: change },
  "/api/questions/:id/replies": { POST: change },
  "/api/jobs": { GET: look, POST: change },
  "/api/jobs/:id": { GET: look, PUT: change },
  "/api/jobs/:id/estimates": { POST: change },
  "/api/jobs/:id/extra-fault": { POST: change },
  "/api/jobs/:id/extra-fault/price": { POST: look },
  "/api/jobs/:id/changes": { GET: look },
  "/api/jobs/:id/agreements": { GET: look },
  "/api/jobs/:id/questions": { GET: look },
  "/api/jobs/:id/work-log": { GET: look, POST: change },
  "/api/jobs/:id/work-log/:entry/withdrawal": { POST: change },
  "/api/jobs/:id/work-log/:entry/correction": { POST: change },
  "/api/jobs/:id/timers": { GET: look, POST: change },
  "/api/jobs/:id/timers/stop": { POST: change },
  "/api/jobs/:id/beginning-unpaid": { POST: change },
  "/api/jobs/:id/tick-offs": { GET: look, POST: change },
  "/api/jobs/:id/readings": { GET: look, POST: change },
  "/api/jobs/:id/payments": { GET: look, POST: change },
  "/api/jobs/:id/payments/:payment/withdrawal": { POST: change },
  "/api/jobs/:id/close-outs": { GET: look, POST: change },
  "/api/jobs/:id/hand-backs": { POST: change },
  "/api/jobs/:id/close-out": { GET: look },
  "/api/jobs/:id/final-account.pdf": { GET: look },
  "/api/jobs/:id/events": { GET: look },
  "/api/jobs/:id/standing": { GET: look },
  "/api/jobs/:id/parts": { GET: look },
  "/api/jobs/:id/photos": { GET: look, POST: change },
  "/api/jobs/:id/photos/on-paper": { POST: change },
  "/api/jobs/:id/photos/:photo/removal": { POST: change },
  "/api/jobs/:id/calendar.ics": { GET: look },
  "/api/photos/:id": { GET: look },

  // Programs: parts to get.
  "/api/order-list": { GET: look },
  "/api/order-list.csv": { GET: look },
  "/api/orders": { GET: look, POST: change },
  "/api/orders/:id": { GET: look },
  "/api/orders/:id/ending": { POST: change },
  "/api/goods-in": { GET: look, POST: change },
  "/api/goods-in/:id/tests": { POST: change },
  "/api/shares-good": { GET: look },
  "/api/stock": { GET: look },
  "/api/stock/counts": { POST: change },
} as const satisfies Table;

type Method = "GET" | "POST" | "PUT" | "DELETE";
export type Table = Readonly<Record<string, Readonly<Partial<Record<Method, Right>>>>>;

interface Route {
  readonly method: string;
  readonly path: string;
}

export const rightOf = ({ method, path }: Route, table: Table = WHO): Right | undefined =>
  Object.hasOwn(table, path) ? table[path]?.[method as Method] : undefined;

/** Those that answer: middleware stands under ALL. */
export const answering = <R extends Route>(routes: readonly R[]): readonly R[] => routes.filter(({ method }) => method !== "ALL");

/** An app that has such a route must not start: nobody has said who may. */
export const withoutRow = (routes: readonly Route[]): readonly string[] => [
  ...new Set(
    answering(routes)
      .filter((route) => !rightOf(route))
      .map(({ method, path }) => `${method} ${path}`),
  ),
];

/** Whoever came in. Neither: where nobody has an account yet. */
export interface Caller {
  readonly staff?: { readonly role: Role };
  /** Of a token. */
  readonly scopes?: readonly Scope[];
}

/** What this caller lacks, or nothing. `staff.role` of a token is a manager's only by the scope `admin` (records/apiTokens). */
export function lacking({ who, scope }: Right, { staff, scopes }: Caller): "sign-in" | Scope | "role" | undefined {
  if (scopes && !scope) return "sign-in";
  if (scopes && scope && !scopes.includes(scope)) return scope;
  if (who !== "manager" || staff === undefined || staff.role === "manager") return undefined;
  return scopes ? "admin" : "role";
}

/** Whether a page may show the way to a route. */
export const mayUse = <P extends keyof typeof WHO>(caller: Caller, method: keyof (typeof WHO)[P], path: P): boolean =>
  lacking((WHO as Table)[path]![method as Method]!, caller) === undefined;
