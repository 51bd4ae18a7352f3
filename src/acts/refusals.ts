/** Every problem type the API can answer with. Its URI is /problems/ and the name with dashes; it never changes its meaning. */
import type { LogProblemName, ProblemName } from "../estimating/problems.js";

interface Answer {
  readonly status: 400 | 401 | 403 | 404 | 405 | 409 | 410 | 412 | 413 | 415 | 422 | 428 | 429 | 500 | 503;
  readonly title: string;
}

/** What a whole request can be answered with. */
export const ANSWERS = {
  "input refused": { status: 422, title: "Something in the input has to be put right; `errors` says where and how." },
  "json malformed": { status: 400, title: "The body is not JSON." },
  "query refused": { status: 400, title: "A query parameter or path part cannot be read." },
  "header refused": { status: 400, title: "A header cannot be read." },
  "sign-in wanted": { status: 401, title: "This place is for the shop: sign in, or send its bearer token." },
  "owner link wanted": { status: 401, title: "Open your link again, or type the estimate's number and code." },
  "sign-in refused": { status: 401, title: "That is not the shop's secret." },
  "entry refused": { status: 403, title: "This link, or this number and code, opens nothing here." },
  "role wanted": { status: 403, title: "This is for another role of the shop's staff." },
  "scope wanted": { status: 403, title: "The token has no scope for this; make one that has." },
  "passkey unusable": { status: 409, title: "Passkeys need HTTPS and a name, or localhost; this address has neither." },
  "other site": { status: 403, title: "The request was started by another site, so it was not carried out." },
  "host unknown": { status: 403, title: "The request names a host this server does not answer for." },
  "not found": { status: 404, title: "There is nothing at this address." },
  "method not allowed": { status: 405, title: "This address does not take this method; see the Allow header." },
  "id taken": { status: 409, title: "A record with this id, or with what must be unique, exists already." },
  "last manager": {
    status: 409,
    title: "This is the last manager who can sign in; make someone else a manager first.",
  },
  "shop there": { status: 409, title: "A backup goes into a database without a shop only." },
  "shop moved": { status: 409, title: "The shop was written to meanwhile; try again." },
  "estimate issued": { status: 409, title: "An issued estimate never changes; make a new revision." },
  "estimate unready": { status: 409, title: "An estimate with problems cannot be issued." },
  "draft open": { status: 409, title: "The job has an open draft; change that one, or issue it first." },
  "owner answered": { status: 409, title: "The owner answered while this was being issued; read the answer, then issue it." },
  "estimate not issued": { status: 409, title: "Only an issued revision can be sent to the owner or answered." },
  "no public address": {
    status: 409,
    title:
      "Customers cannot reach this computer: give them the PDF and record the answer. Links are made where the shop has a public address.",
  },
  "content differs": {
    status: 409,
    title: "The answer names another content than that of the revision; show the revision again.",
  },
  "revision superseded": { status: 409, title: "A newer revision was issued; only the current one can be agreed to." },
  "revision lapsed": { status: 409, title: "The revision is past its last day; ask the shop for a new one." },
  "answered already": {
    status: 409,
    title: "This revision has another answer on record; a correction is a new record that names it.",
  },
  "nothing to correct": { status: 409, title: "A correction names the answer that stands." },
  "price differs": { status: 409, title: "What was chosen comes to another price than was shown; look at it again." },
  "work unagreed": {
    status: 409,
    title: "The owner has not agreed to this work; ask first, or override with a reason and a name.",
  },
  "limit passed": {
    status: 409,
    title: "This passes what the owner agreed to; ask first, or override with a reason and a name.",
  },
  "part unagreed": {
    status: 409,
    title: "The part is not the one agreed for this work; ask first, or override with a reason and a name.",
  },
  "nothing agreed": { status: 409, title: "The owner has agreed to nothing, so there is nothing to close out." },
  "closed already": {
    status: 409,
    title: "The job is closed already; a correction is a new record that names the one that stands.",
  },
  "job closed": { status: 409, title: "The job is closed and its account is final; correct the close-out, or use a new job." },
  "log entry unknown": { status: 404, title: "The work log of this job has no such entry." },
  "entry withdrawn already": { status: 409, title: "The entry is withdrawn already, and counts nowhere." },
  "withdrawn already": { status: 409, title: "The record is withdrawn already; it is found by its id, and counts nowhere." },
  "part wanted": {
    status: 409,
    title: "The part is on the shelf, on order or wanted by agreed work, so it stays in the catalogue.",
  },
  "no timer running": { status: 409, title: "No timer of this person is running on this job." },
  "link dead": { status: 410, title: "This link has expired or was withdrawn; ask the shop for a new one." },
  "version moved": { status: 412, title: "Someone else saved first; fetch the record again and decide." },
  "body too large": { status: 413, title: "The body is larger than this address takes." },
  "media type unsupported": { status: 415, title: "The body's media type is not one this address takes." },
  "idempotency key reused": { status: 422, title: "This key was used before with another body." },
  "profile unmet": {
    status: 422,
    title: "The agreement profile asks for something that the estimate lacks; `errors` says what.",
  },
  "backup unreadable": { status: 422, title: "This is no whole and unaltered backup, so none of it was restored." },
  "backup newer": { status: 422, title: "The backup was made by a newer version; update this one, then restore." },
  "backup older": { status: 422, title: "The backup is of an older version; `npm run restore` brings it up to date on the way." },
  "version wanted": { status: 428, title: "A change needs an If-Match header with the record's ETag." },
  "too many attempts": { status: 429, title: "Too many wrong secrets from one place; wait as Retry-After says." },
  "too many questions": { status: 429, title: "Several questions wait for a reply; the shop replies first." },
  "our fault": { status: 500, title: "Something failed on our side; nothing was changed halfway." },
  "database busy": { status: 503, title: "The database was busy with something else, so nothing was changed; send it again." },
  "outcome unknown": {
    status: 503,
    title: "The database gave no answer, so this may or may not have been done; look before sending it again.",
  },
  "database missing": { status: 503, title: "No database is set up." },
  "photo store missing": { status: 503, title: "No place for photos is set up; everything else works." },
  "secret missing": { status: 503, title: "The shop's secret is not set up, so nobody is let in." },
} as const satisfies Record<string, Answer>;

export type AnswerName = keyof typeof ANSWERS;

/** What can be wrong with the shape of a body or a query. */
export const SHAPE_FAULTS = {
  "key unknown": "A key that is not part of this shape, perhaps misspelt.",
  "key missing": "A key that must be given is absent.",
  "wrong type": "A value of another JSON type than wanted.",
  "choice unknown": "A value that is not one of the choices.",
  "text too long": "A text above the length allowed.",
  "text empty": "A text that must say something is empty.",
  "line broken": "A line break or control character in a text of one line.",
  "control character": "A control character in a text of several lines.",
  "locale unreadable": "A locale that is not a BCP 47 tag.",
  "time zone unreadable": "A time zone that is not an IANA name.",
  "number not whole": "A number that must be whole is not.",
  "number out of range": "A number outside the range allowed.",
  "value unreadable": "A value of a part that cannot be read in the figures of its type.",
  "picture unreadable": "A picture that is too large, cut off, or of a kind that documents cannot carry.",
  "name taken": "A name that someone, or something, else has.",
  "record unknown": "An id that names no record.",
  "part types differ": "Parts of two types, to be merged into one.",
  "leads differ": "Parts with different numbers of leads, to be merged into one.",
  "values differ": "Parts of two values, to be merged into one.",
  "ratings differ": "Parts rated for different voltages, to be merged into one.",
  "changed meanwhile": "A value that someone else changed since it was read.",
  "entry empty": "A log entry without time and without a part.",
  "time given twice": "Minutes beside a start and an end.",
  "end missing": "A start without an end, or an end without a start.",
  "part given twice": "A part named by its kind and by its type.",
  "work of the part missing": "A part used without the work item that used it.",
  "reason missing": "A correction that does not say why.",
  "closed before agreed": "A job closed on a day before its work was first agreed to.",
  "row refused": "A row of a table that cannot be read; the detail says which row and column, and why.",
  "rate missing": "Work that somebody attends at a rate of 0.",
  "starts too early": "A version of a rate book from a day before that of the one in use.",
  "nothing changed": "A change that leaves everything as it stands.",
  "encoding unreadable": "Bytes that are text in no encoding known here.",
  "shape unknown": "A value that fits none of the shapes allowed.",
} as const;

/** What an agreement profile can ask for, or an answer lack. */
export const AGREEMENT_FAULTS = {
  "field missing": "A field that the agreement profile requires on the document is absent.",
  "word not allowed": "A word that the agreement profile does not allow for the estimate's amount.",
  "validity too short": "The estimate binds for fewer days than the agreement profile wants.",
  "answer and set differ": "Agreed with work struck out, agreed in part with none, or all of it struck out.",
  "spoken item missing": "A spoken agreement without one of its particulars (16 CCR 2722(a)).",
  "additional cost differs": "The additional cost told is not what the revision adds.",
  "writing missing": "An answer in writing that does not say which.",
} as const;

export type ShapeFault = keyof typeof SHAPE_FAULTS;

/** What the engine can refuse (src/estimating/problems.ts); the sentence itself comes from the wording. */
export const ENGINE_FAULTS: Readonly<Record<ProblemName, string>> = {
  "count negative": "A count below 0.",
  "count fractional": "A count that is not whole.",
  "count too large": "A count above the limit.",
  "count missing": "No count.",
  "assembly unknown": "An assembly that is not in the teardown map.",
  "operation unknown": "An operation that is not in the rate book.",
  "part type unknown": "A part type that is not in the rate book.",
  "part kind unknown": "A part that is not in the catalogue given.",
  "part missing": "A replacement without a part.",
  "labour class unknown": "A labour class that is not in the rate book.",
  "grade unknown": "A condition grade that is not in the rate book.",
  "profile unknown": "An agreement profile the program does not have.",
  "fastener unknown": "A fastener the rate book has no time for.",
  "access standard missing": "A board size and mounting the rate book has no standard for.",
  "id repeated": "One id for two things.",
  "behind cycle": "Assemblies that are behind one another in a circle.",
  "fit before cycle": "Assemblies with no order to refit them in.",
  "currency unknown": "A currency that is not of ISO 4217.",
  "currency differs": "A price in another currency than the estimate.",
  "exchange rate unreadable": "An exchange rate that is no decimal above 0.",
  "exchange rate ahead": "An exchange rate of a day after the estimate's.",
  "exchange rate of itself": "An exchange rate of the estimate's own currency.",
  "tax category unknown": "A tax category that is not in the rate book.",
  "percent out of range": "A percentage outside its range.",
  "probability out of range": "A probability outside 0 to 1.",
  "share good out of range": "A share outside 0 to 1.",
  "service level out of range": "A service level outside 0 to 1.",
  "group differs": "Items of one group that disagree.",
  "times out of order": "Low, likely and high times out of order.",
  "minutes out of range": "Minutes outside their range.",
  "amount out of range": "An amount outside its range.",
  "amount fractional": "An amount that is not whole.",
  "total too large": "Sums too large to be exact.",
  "mark-up bands out of order": "Mark-up bands out of order.",
  "leads or minutes": "A part type with both, or neither, of leads and minutes.",
  "date unreadable": "A date that is not a day.",
  "too many assemblies": "More assemblies than the limit.",
  "too many items": "More work items than the limit.",
  "too many choices": "More options, if-found works or works worth doing than the limit.",
};

/** What a work log can be refused for beyond that; a closed job refuses it whole. */
export const LOG_FAULTS: Readonly<Record<Exclude<LogProblemName, "job closed">, string>> = {
  "moment unreadable": "A moment that is not ISO 8601 with a zone.",
  "time negative": "Time that ends before it begins, or minutes below 0.",
  "time too long": "A timer that ran longer than anyone works.",
  "times overlap": "Time of one person in two places.",
  "two timers": "A second timer of one person.",
  "timer running": "A timer that runs where all must have stopped.",
  "person missing": "Time of nobody.",
  "work unknown": "Work that the job does not have.",
  "work not agreed": "Work that the owner has not agreed to.",
  "part not agreed": "A part other than the one agreed for the work.",
  "override incomplete": "An override without a reason or a name.",
};

export const typeOf = (name: string): string => `/problems/${name.replaceAll(" ", "-")}`;
