import type { OwnersPage as Page } from "../english/ownersPage.js";

const frame: Page["frame"] = {
  error: "Fehler",
  skip: "Zur Seite springen",
  reach: "So erreichen Sie uns",
  write: "So schreiben Sie uns",
  keepToYourself:
    "Diese Seite ist nur für Sie. Behalten Sie ihre Adresse für sich: Wer sie hat, kann den Kostenvoranschlag lesen und beantworten.",
  problems: (count) => (count === 1 ? "Etwas stimmt noch nicht" : `${count} Angaben stimmen noch nicht`),
  notTaken: "Ihre Antwort wurde nicht angenommen",
  answered: (answer, by) =>
    `Eine Antwort ist schon festgehalten und gilt: ${answer}. ${by} Was jetzt gesendet wurde, ändert nichts. Wenn Sie es anders gemeint haben, sagen Sie es uns.`,
};

const gone: Page["gone"] = {
  title: "Dieser Link gilt nicht mehr",
  expired: (since) => `Er galt bis ${since}.`,
  withdrawn: (shop, since) => `${shop} hat ihn am ${since} zurückgezogen.`,
  nothingLost: "Was Sie bisher geantwortet haben, ist nicht verloren.",
  current: "Der gültige Kostenvoranschlag ist",
  openIt:
    "Wenn Sie einen neueren Link haben oder den Code auf dem Papier, öffnen Sie ihn damit; sonst bitten Sie uns um einen neuen Link.",
};

const wait: Page["wait"] = {
  title: "Einen Augenblick",
  tooOften: (seconds) =>
    `Für diesen Link wurde der Preis innerhalb einer Minute sehr oft berechnet. Nichts, was Sie angekreuzt oder geschrieben haben, ist verloren: Warten Sie ${seconds} Sekunden und versuchen Sie es dann noch einmal.`,
  again: "Noch einmal versuchen",
};

const entry: Page["entry"] = {
  title: "Ihr Kostenvoranschlag",
  typeBoth:
    "Geben Sie die beiden Angaben ein, die am Ende des gedruckten Kostenvoranschlags neben dem quadratischen Code stehen.",
  number: "Nummer des Kostenvoranschlags",
  numberHint: "Zum Beispiel J-2026-0001.",
  code: "Code",
  codeHint: "Zehn Buchstaben und Ziffern. Großschreibung, Leerzeichen und Striche spielen keine Rolle.",
  open: "Kostenvoranschlag öffnen",
  tooMany: (minutes) => `Zu viele Versuche. Warten Sie ${minutes} Minuten und versuchen Sie es dann noch einmal.`,
  bothWanted: "Geben Sie die Nummer des Kostenvoranschlags und den Code daneben ein.",
  nothingHere:
    "Dieser Link öffnet hier nichts; vielleicht ist er abgeschnitten. Geben Sie stattdessen Nummer und Code von Ihrem Kostenvoranschlag ein.",
  noSuch:
    "Zu dieser Nummer und diesem Code gibt es keinen Kostenvoranschlag. Beide stehen neben dem quadratischen Code am Ende des Kostenvoranschlags.",
};

const refused: Page["refused"] = {
  name: "Ihr vollständiger Name fehlt oder ist zu lang; geben Sie ihn in höchstens 200 Zeichen an.",
  text: "Ihre Frage fehlt oder ist zu lang; schreiben Sie sie in höchstens 2.000 Zeichen.",
  answer: "Diese Antwort passt nicht zu dem, was angekreuzt ist; sehen Sie es noch einmal an.",
  struck: "Was weggelassen werden soll, passt nicht zu diesem Kostenvoranschlag; sehen Sie es noch einmal an.",
  chosen: "Die gewählten Zusatzarbeiten passen nicht zu diesem Kostenvoranschlag; sehen Sie es noch einmal an.",
  amount: "Der Preis ist inzwischen ein anderer als der gezeigte; sehen Sie ihn noch einmal an, bevor Sie antworten.",
  "price differs": "Der Preis ist inzwischen ein anderer als der gezeigte; sehen Sie ihn noch einmal an, bevor Sie antworten.",
  "content differs": "Der Kostenvoranschlag ist inzwischen ein anderer als der gezeigte; sehen Sie ihn noch einmal an.",
  "revision superseded": "Es gibt eine neuere Fassung; nur der aktuellen kann zugestimmt werden.",
  "revision lapsed": "Die Frist dieser Fassung ist abgelaufen; bitten Sie die Werkstatt um eine neue.",
  "answered already": "Diese Fassung ist schon beantwortet. Möchten Sie etwas ändern, wenden Sie sich an die Werkstatt.",
  "job closed": "Der Auftrag ist abgeschlossen und seine Abrechnung endgültig.",
  "too many questions": "Mehrere Fragen warten noch auf eine Antwort; zuerst antwortet die Werkstatt.",
};

const head: Page["head"] = {
  ref: (number, revision) => `${number}, Fassung ${revision}`,
  title: (number, revision) => `Kostenvoranschlag ${number}, Fassung ${revision}`,
  estimateFor: (unit) => `Kostenvoranschlag: ${unit}`,
  forOwner: (owner) => `Für ${owner}.`,
  serial: (serial) => `Seriennummer ${serial}`,
  youTold: "Ihre Angabe",
  weFound: (found) => `Unser Befund: ${found}`,
  pdf: "Dieser Kostenvoranschlag als PDF",
  workOut: "Preis berechnen",
  total: "Gesamtbetrag",
  toAnswer: "Antworten",
  photos: "Fotos",
  photo: (number) => `Foto ${number}`,
  notices: "Was Sie wissen sollten",
  caution: "Vorsicht",
  reckoning: "Wie sich der Betrag zusammensetzt",
  reckoningOffered: "Wie sich dieser Kostenvoranschlag zusammensetzte",
};

const standing: Page["standing"] = {
  label: "Stand dieses Kostenvoranschlags",
  closed: {
    done: "Die Arbeit ist fertig",
    "nothing done": "Nichts vom Vereinbarten wurde ausgeführt",
    "handed back": "Das Gerät wurde zurückgegeben",
  },
  notDone: (names) => `Nicht ausgeführt: ${names}.`,
  account: (day, total, corrected) =>
    `${corrected ? "Berichtigte Schlussrechnung" : "Schlussrechnung"} vom ${day}: Gesamtbetrag ${total} inkl. Umsatzsteuer;`,
  paidBack: (amount) => `${amount} zahlen wir Ihnen zurück`,
  stillToPay: (amount) => `noch zu zahlen: ${amount}`,
  accountPdf: "Schlussrechnung als PDF",
  replaced: (revision) => `Fassung ${revision} ist an die Stelle dieser getreten.`,
  notAnyMore: "Dieser kann nicht mehr zugestimmt werden.",
  since: {
    declined: (revision) => `Fassung ${revision} wurde abgelehnt.`,
    offered: (revision) => `Fassung ${revision} wartet auf Ihre Antwort.`,
  },
  stillStands: "Dieser wurde zugestimmt, und sie bleibt bestehen.",
  openRevision: (revision) => `Fassung ${revision} öffnen`,
  open: "Wir tun nichts, dem Sie nicht zugestimmt haben. Dieses Angebot gilt bis",
  ended: (until) => `Dieses Angebot ist am ${until} abgelaufen`,
  afterEnd: " und kann nicht mehr angenommen werden. Sie können es noch ablehnen oder uns unten um ein neues bitten.",
  deposit: (amount) => `Noch zu zahlende Anzahlung: ${amount}.`,
  found: (amount, total) =>
    `Von den Arbeiten, denen Sie für den Bedarfsfall zugestimmt haben, waren bisher ${amount} nötig; damit beträgt die Summe ${total}.`,
  paid: (amount, due, when) =>
    `Bisher bezahlt: ${amount}${due === undefined ? "" : `; ${{ "once done": "nach der Arbeit noch zu zahlen", now: "noch zu zahlen", back: "Rückzahlung an Sie" }[when]}: ${due}`}.`,
  lastDay: "Letzten Tag in den Kalender eintragen",
  readyDay: "Tag der voraussichtlichen Fertigstellung in den Kalender eintragen",
  readyOn: (on) => `Voraussichtlich fertig am ${on}.`,
  answers: { agreed: "Zugestimmt", "part agreed": "Teilweise zugestimmt", declined: "Abgelehnt" },
  channels: { page: "auf dieser Seite", "in person": "persönlich", telephone: "am Telefon", "e-mail": "per E-Mail" },
  by: (name, channel, at) => `Von ${name}, ${channel}, ${at}.`,
  corrects: "Dies berichtigt eine frühere Antwort.",
  amount: (total, most) => `Gesamtbetrag ${total}${most === undefined ? "" : `, nie mehr als ${most}`}.`,
  optionsTaken: (names) => `Gewählte Zusatzarbeiten: ${names}.`,
  leftOut: (names) => `Weggelassen: ${names}.`,
  receipt: "Beleg",
  receiptWhy:
    "Bewahren Sie ihn auf: Er zeigt, dass diese Antwort so festgehalten ist, wie sie ist. Wenn Sie es anders gemeint haben, sagen Sie es uns.",
};

const inShort: Page["inShort"] = {
  name: "Das Wichtigste",
  total: (taxed) => (taxed ? "Gesamtbetrag inkl. Umsatzsteuer" : "Gesamtbetrag"),
  due: "Noch zu zahlen",
  paid: (amount) => `${amount} sind schon bezahlt.`,
  ceiling: "Nie mehr als",
  ceilingWhy: "Wir halten an und fragen Sie, bevor die Rechnung darüber hinausgeht.",
  deposit: "Anzahlung",
  depositWhy: "Zu zahlen, bevor wir anfangen; Teil des Gesamtbetrags.",
  depositPaid: (paid, due) =>
    due === undefined ? `${paid} davon sind bezahlt.` : `${paid} davon sind bezahlt; ${due} sind noch offen.`,
  depositBegun: (paid) => `${paid} davon sind bezahlt, die Arbeit hat begonnen; der Rest ist mit der Restzahlung fällig.`,
  ...{ agreedIn: (revision) => `Vereinbart in Fassung ${revision}`, agreedWhy: "Es gilt, bis Sie mehr zustimmen." },
  ...{ stands: (revision) => `Vereinbart in Fassung ${revision}, die bestehen bleibt`, account: "Schlussrechnung" },
  ...{ paidSoFar: "Bisher bezahlt", toPay: "Noch zu zahlen", paidBack: "Zahlen wir Ihnen zurück" },
  declinedThis: (revision, earlier) =>
    `Fassung ${revision} wurde abgelehnt; was in Fassung ${earlier} vereinbart wurde, bleibt bestehen.`,
  ...{ declined: "Abgelehnt; höchstens zu zahlen" },
  agreedThen: (amount, within) =>
    `${within ? "Davon" : "Daneben"} gelten ${amount} inkl. Umsatzsteuer der Arbeit, solange die zurückgenommene Zustimmung galt.`,
  ifDeclined: "Wenn Sie nach dem Öffnen ablehnen",
  ifDeclinedWhy: "Das Höchste, was Sie dann für Fehlersuche, Öffnen und Schließen schulden.",
  ready: "Fertig in etwa",
  days: (days) => `${days} ${days === 1 ? "Tag" : "Tagen"}`,
  readyWhy: "Ab Ihrer Antwort.",
  until: "Gültig bis",
};

const changes: Page["changes"] = {
  since: (revision, agreed) =>
    agreed
      ? `Was sich gegenüber dem in Fassung ${revision} Vereinbarten geändert hat`
      : `Was sich seit Fassung ${revision} geändert hat`,
  declined: (revision) => `Was Fassung ${revision}, die abgelehnt wurde, geändert hätte`,
  caption: "Um wie viel sich der Gesamtbetrag geändert hat, nach Ursache",
  because: "Ursache",
  same: "Der Gesamtbetrag ist derselbe.",
  rows: (count) => `Zeile für Zeile (${count})`,
  hint: "Beträge der Zeilen sind vor Umsatzsteuer, wo sie hinzukommt; die von Zusatzarbeiten und möglichen Arbeiten enthalten sie.",
  notInTotal: "nicht im Gesamtbetrag",
};

const madeOf: Page["madeOf"] = {
  name: "Woraus er besteht",
  sum: "Summe der Posten",
  withoutTax: "Ohne Umsatzsteuer",
  ofBase: (percent, base) => `${percent} von ${base}`,
  total: (within) => (within ? "Gesamtbetrag; die Posten enthalten die Umsatzsteuer" : "Gesamtbetrag"),
  paid: "Bereits bezahlt",
  due: "Noch zu zahlen",
};

const choice: Page["choice"] = {
  name: "Ihre Wahl",
  tick: "Kreuzen Sie an, was Sie wünschen. ",
  shared:
    "Zusatzarbeiten teilen sich Arbeit, daher gilt jeder Preis neben den anderen angekreuzten; der Gesamtbetrag wird für alle zusammen berechnet.",
  packages: "Wählen Sie eines",
  packagesHint: (open) =>
    `Jeder Preis gilt für alles mit genau diesen Zusatzarbeiten.${open ? " Einzelne Häkchen können Sie unten noch ändern." : ""}`,
  noOptions: "Die Arbeiten oben ohne Zusatzarbeit.",
  pick: (name) => `${name} nehmen`,
  taken: "gewählt",
  left: "weggelassen",
  inTotal: "im Gesamtbetrag",
  toTotal: "zum Gesamtbetrag",
  work: "Die Arbeiten im Einzelnen:",
  ticked: (ticked, of) => (ticked === of ? `alle ${of} angekreuzt` : `${ticked} von ${of} angekreuzt`),
  workToDo: "Die auszuführenden Arbeiten",
  workHint: (beforeTax, more, less) =>
    `Was angekreuzt ist, wird gemacht. Nehmen Sie ein Häkchen weg, um diese Arbeit wegzulassen; der Gesamtbetrag folgt. ${beforeTax ? "Die Beträge hier sind vor Umsatzsteuer: Umsatzsteuer, Öffnen" : "Öffnen"} und was mehrere Arbeiten sich teilen, kommt hinzu${more && `, ebenso: ${more}`}.${less && ` Davon ab geht: ${less}.`} Weggelassene Arbeit kann den Fehler bestehen lassen; fragen Sie uns, wenn Sie nicht sicher sind.`,
  onlyIf: "Nur wenn es sich als nötig erweist, und nicht im Gesamtbetrag; diese Beträge enthalten all das:",
  onlyIfCovered: "Nur wenn es sich als nötig erweist; der Festpreis deckt es ab:",
  ifFound: "Was wir finden können",
  covered: "Der Festpreis deckt es ab: Es wird ausgeführt, wenn es sich als nötig erweist, und Sie zahlen nicht mehr dafür.",
  notCovered:
    "Nicht im Gesamtbetrag. Ihre Zustimmung gilt auch dafür: Es wird nur ausgeführt und berechnet, wenn es sich als nötig erweist, und nie über den Betrag unter „Nie mehr als“ hinaus.",
  coveredShort: "enthalten",
  chance: (share) => `Wahrscheinlichkeit ${share}`,
  worthDoing: "Lohnt sich, solange es offen ist",
  worthDoingHint:
    "Nicht Teil dieses Kostenvoranschlags. Wenn Sie etwas davon wünschen, fragen Sie uns; wir nehmen es in eine neue Fassung auf.",
  worthDoingCaption: "Was es jetzt und bei einem späteren Auftrag kosten würde, inkl. Umsatzsteuer",
  ...{ workHead: "Arbeit", now: "Jetzt", later: "Bei einem späteren Auftrag" },
};

const answer: Page["answer"] = {
  name: "Ihre Antwort",
  hint: "Sie gilt für das, was oben angekreuzt ist. Sie sehen sie noch einmal, bevor sie abgeschickt wird.",
  fullName: "Ihr voller Name",
  fullNameHint: "Er gilt als Ihre Unterschrift.",
  agree: (amount) => `Diesen Arbeiten für ${amount} zustimmen`,
  agreeInPart: (amount) => `Einem Teil der Arbeiten für ${amount} zustimmen`,
  ask: "Eine Frage stellen",
  decline: (amount) => `Ablehnen und höchstens ${amount} schulden`,
  declineUnopened: (amount) => `Ablehnen, das Gerät so zurücknehmen, wie es kam, und höchstens ${amount} schulden`,
  declineRevision: (revision, earlier) => `Fassung ${revision} ablehnen; Fassung ${earlier} bleibt bestehen`,
};

const check: Page["check"] = {
  title: "Noch ein Blick, bevor Sie abschicken",
  notSent: "Ihre Antwort ist noch nicht abgeschickt.",
  estimate: "Kostenvoranschlag",
  yourAnswer: "Ihre Antwort",
  acts: { agreed: "Zustimmen", "part agreed": "Teilweise zustimmen", declined: "Ablehnen" },
  ifDeclined: "Wenn Sie nach dem Öffnen ablehnen",
  owed: "Sie schulden",
  atMost: (amount) => `höchstens ${amount}`,
  taken: "Gewählte Zusatzarbeiten",
  none: "keine",
  left: "Weggelassene Zusatzarbeiten",
  struck: "Weggelassene Arbeiten",
  total: "Gesamtbetrag",
  ceiling: "Nie mehr als",
  by: "Name",
  onRecord: "Diese Worte werden festgehalten:",
  goBack: "Zurück und ändern",
};

const questions: Page["questions"] = {
  name: "Fragen",
  asked: (at) => `Ihre Frage, ${at}`,
  notYet: "Noch nicht beantwortet.",
  replied: (by, at) => `${by} antwortete, ${at}`,
  first: "Fragen Sie uns etwas",
  more: "Fragen Sie noch etwas",
  hint: "Wir antworten hier auf dieser Seite. Eine Frage ist keine Antwort auf den Kostenvoranschlag.",
  send: "Frage abschicken",
};

const said: Page["said"] = {
  answer: "Ihre Antwort ist festgehalten. Bewahren Sie den Beleg unten auf.",
  question: "Ihre Frage ist bei uns angekommen. Die Antwort lesen Sie dann hier.",
  other:
    "Es wurde nichts abgeschickt. In diesem Browser wurde inzwischen ein anderer Kostenvoranschlag geöffnet, und das ist dieser; um mit dem vorigen weiterzumachen, öffnen Sie seinen Link noch einmal.",
};

const mail: Page["mail"] = {
  subject: (number, revision, unit) => `Kostenvoranschlag ${number}, Fassung ${revision}: ${unit}`,
  dear: (name) => (name ? `Guten Tag ${name},` : "Guten Tag,"),
  ready: (unit) =>
    `unser schriftlicher Kostenvoranschlag ist fertig. Er betrifft Ihr Gerät: ${unit}. Hier können Sie ihn lesen und beantworten:`,
  otherwise: (page, number, code) =>
    `Falls sich der Link nicht öffnet, gehen Sie auf ${page} und geben Sie die Nummer ${number} und den Code ${code} ein.`,
};

const calendar: Page["calendar"] = {
  offerEnds: (number, unit) => `Kostenvoranschlag ${number} läuft ab: ${unit}`,
  lastDay: (revision, number, shop) =>
    `Letzter Tag, um Fassung ${revision} des Kostenvoranschlags ${number} von ${shop} zuzustimmen.`,
  ready: (unit, number) => `${unit} voraussichtlich fertig (${number})`,
  fromAnswer: (days, agreedOn, shop) =>
    `Etwa ${days} ${days === 1 ? "Tag" : "Tage"} ab der Antwort vom ${agreedOn}, laut Kostenvoranschlag von ${shop}. Fragen Sie nach, bevor Sie kommen.`,
};

const words: Page["words"] = {
  estimate: (number) => `dem Kostenvoranschlag ${number ?? ""}`.trim(),
  revision: (revision) => `Fassung ${revision}`,
  of: (day) => `vom ${day}`,
  agree: (estimate) => `Ich stimme ${estimate} zu: Führen Sie die aufgeführten Arbeiten aus.`,
  agreeInPart: (estimate, left) =>
    `Ich stimme ${estimate} teilweise zu: Führen Sie die aufgeführten Arbeiten aus, ausgenommen diese: ${left}.`,
  noOptions: "Ich wähle keine der Zusatzarbeiten.",
  options: (count, names) => `Ich wähle die ${count === 1 ? "Zusatzarbeit" : "Zusatzarbeiten"}: ${names}.`,
  covered:
    "Die aufgeführten möglichen Arbeiten dürfen ausgeführt werden, wenn sie sich als nötig erweisen; der Preis deckt sie ab.",
  possible: "Die aufgeführten möglichen Arbeiten dürfen zu ihrem Preis ausgeführt werden, wenn sie sich als nötig erweisen.",
  upTo: (total, most) =>
    `Ich bin einverstanden, dass es auf ${total} inkl. Umsatzsteuer kommt und ohne neue Zustimmung nie auf mehr als ${most}.`,
  declineRevision: (estimate, earlier) =>
    `Ich stimme ${estimate} nicht zu. Was ich in Fassung ${earlier} vereinbart habe, bleibt bestehen.`,
  declineUnopened: (estimate, owed) =>
    `Ich stimme ${estimate} nicht zu. Geben Sie das Gerät zurück und öffnen Sie nichts mehr daran. Für das bis dahin Geleistete schulde ich nicht mehr als ${owed} inkl. Umsatzsteuer.`,
  declineAfter: (most) =>
    `Für Arbeiten, die ausgeführt wurden, solange die Zustimmung galt, schulde ich höchstens das dafür Vereinbarte, und für beides zusammen nicht mehr als ${most} inkl. Umsatzsteuer.`,
  decline: (estimate, owed) =>
    `Ich stimme ${estimate} nicht zu. Bauen Sie das Gerät zusammen und geben Sie es zurück. Für das bereits erfolgte Öffnen und die Fehlersuche schulde ich nicht mehr als ${owed} inkl. Umsatzsteuer.`,
};

export const ownersPage: Page = {
  ...{
    frame,
    gone,
    wait,
    entry,
    refused,
    head,
    standing,
    inShort,
    changes,
    madeOf,
    choice,
    answer,
    check,
    questions,
    said,
    mail,
    calendar,
    words,
  },
};
