import type { Words } from "../english/index.js";
import { NAMED } from "../english/paper.js";
import { listedShort } from "../list.js";

type Paper = Words["paper"];

const furniture: Paper["furniture"] = {
  page: (page, of) => `Seite ${page} von ${of}`,
  record: (head) => `Protokoll ${head}`,
  logo: (shop) => `Zeichen von ${shop}`,
  photos: "Fotos",
  photo: (number) => `Foto ${number}`,
};

const head: Paper["head"] = {
  estimate: "Kostenvoranschlag",
  revision: (number) => `Fassung ${number}`,
  revisionOf: (name, day) => `${name} vom ${day}`,
  asAgreed: (name) => `${name} wie vereinbart`,
  theOneBefore: "den vorigen Kostenvoranschlag",
  number: "Nummer",
  date: "Datum",
  draft: "Entwurf",
  notIssued: "noch nicht ausgestellt; kann sich noch ändern",
  replaces: "Ersetzt",
  goodUntil: "Gültig bis",
  owner: "Auftraggeber",
  name: "Name",
  notGiven: "nicht angegeben",
  address: "Anschrift",
  phone: "Telefon",
  email: "E-Mail",
  taxNumber: "Steuernummer",
  taxNumberOf: (number) => `Steuernummer ${number}`,
  registeredAs: (number) => `Register ${number}`,
};

const unit: Paper["unit"] = {
  unit: "Gerät",
  makerAndModel: "Hersteller, Modell",
  serial: "Seriennummer",
  declaredValue: "Angegebener Wert",
  grade: "Zustand",
  cameWith: "Zubehör",
  storedData: "Gespeichert",
  none: "nichts",
  keepACopy: (held) => `${held}. Bewahren Sie eine Kopie auf: Die Arbeit kann dies löschen.`,
  faultAndCondition: "Fehler und Zustand",
  reported: "Gemeldet",
  found: "Befund",
  onArrival: "Bei Annahme",
};

export const unitDetails: Words["unitDetails"] = {
  maker: "der Hersteller",
  model: "das Modell",
  serial: "die Seriennummer",
  declaredValue: "der angegebene Wert",
  grade: "die Zustandsstufe",
  accessories: "das mitgegebene Zubehör",
  condition: "der Zustand bei Annahme",
  reported: "der gemeldete Fehler",
  found: "der Befund",
  storedData: "die gespeicherten Daten",
  hazards: "die Gefahren im Gerät",
  power: "die Stromversorgung",
};

const inShort: Paper["inShort"] = {
  total: "Gesamtbetrag inkl. Umsatzsteuer",
  ceiling: "Nie mehr als, ohne neue Zustimmung",
  ifDeclined: "Bei Ablehnung nach dem Öffnen",
  deposit: "Anzahlung vor Beginn",
  depositPaid: (paid, due) => `${paid} davon sind bezahlt${due === undefined ? "" : `; ${due} sind noch offen`}`,
  depositBegun: (paid) => `${paid} davon sind bezahlt, die Arbeit hat begonnen; der Rest ist mit der Restzahlung fällig`,
  days: "Tage bis zur Fertigstellung",
  notCounted: (parts) =>
    `Nicht eingerechnet ist die Lieferzeit von ${listedShort(parts, NAMED, { and: "und", more: "weiteren" })}; sie ist noch nicht bekannt.`,
  about: (days) => `etwa ${days} ${days === 1 ? "Tag" : "Tage"}`,
  benchTime: "Arbeitszeit am Gerät",
  unattended: (time) => `und ${time} Dauerlauf oder Laden ohne Aufsicht`,
};

const ledger: Paper["ledger"] = {
  workAndParts: "Arbeiten und Teile",
  ...{ item: "Posten", count: "Anzahl", time: "Arbeitszeit", each: "Einzelpreis", amount: "Betrag", tax: "USt" },
  asAbove: "wie oben",
  sumOfLines: "Summe der Posten",
  withoutTax: "Ohne Umsatzsteuer",
  taxBelow: "Umsatzsteuer nach der Tabelle unten",
  total: "Gesamtbetrag inkl. Umsatzsteuer",
  paid: "Bereits bezahlt",
  stillToPay: "Noch zu zahlen",
};

const taxTable: Paper["taxTable"] = {
  tax: "Umsatzsteuer",
  within: "In den Preisen enthaltene Umsatzsteuer",
  category: "Steuerart",
  rate: "Satz",
  net: "Netto",
  together: "Zusammen",
};

const choices: Paper["choices"] = {
  options: "Zusatzarbeiten: Bitte ankreuzen, was Sie wünschen",
  packages: "Wählen Sie eines: jedes mit genau diesen Zusatzarbeiten",
  allTogether: "Gesamtbetrag inkl. Umsatzsteuer",
  noOptions: "ohne Zusatzarbeit",
  option: "Zusatzarbeit",
  inTheTotal: "Im Gesamtbetrag",
  refused: (revision) => `In Fassung ${revision} von Ihnen weggelassen; bitte ankreuzen, falls doch gewünscht.`,
  ...{ yes: "ja", no: "nein" },
  price: "Preis inkl. Umsatzsteuer",
  filledBox:
    "Ein gefülltes Kästchen ist im Gesamtbetrag schon enthalten; streichen Sie es, um darauf zu verzichten. Jeder Preis gilt für diese Zusatzarbeit " +
    "allein neben dem jetzt Gewählten: Arbeiten hinter derselben Abdeckung teilen sich das Öffnen, mehrere zusammen können daher einen anderen Betrag ergeben, den wir bestätigen.",
  ifFound: "Nur bei Bedarf",
  notInTheTotal:
    "Nicht im Gesamtbetrag. Mit Ihrer Zustimmung dürfen wir dies ausführen, wenn es sich als nötig erweist, zum genannten Preis und nie über den Betrag unter „Nie mehr als“ hinaus, ohne erneut zu fragen.",
  fixedPriceCovers:
    "Der Festpreis deckt dies ab: Wir führen es aus, wenn es sich als nötig erweist, und Sie zahlen nicht mehr dafür.",
  couldPass: "Alles zusammen käme auf mehr, als wir berechnen dürfen: Vorher fragen wir Sie.",
  covered: "enthalten",
  work: "Arbeit",
  chance: "Aussicht",
  priceIfNeeded: "Preis bei Bedarf inkl. Umsatzsteuer",
  worthDoing: "Lohnt sich, solange es offen ist",
  tickToAdd: "Nicht im Gesamtbetrag: ankreuzen, um es hinzuzunehmen",
  now: "Jetzt",
  later: "Bei einem späteren Auftrag",
};

const agreement: Paper["agreement"] = {
  terms: "Bedingungen",
  storage: (amount) => `Lagerung, falls berechnet: ${amount} je Tag inkl. Umsatzsteuer.`,
  yourRights: "Ihre gesetzlichen Verbraucherrechte bleiben unberührt.",
  notices: "Hinweise",
  caution: "Vorsicht",
  yourAnswer: "Ihre Antwort",
  notABill: (number, until) =>
    `Dies ist ein schriftlicher Kostenvoranschlag${number && ` (${number})`}, keine Rechnung. Er gilt bis ${until}.`,
  agreeing: (total, ceiling, ticking) =>
    `Mit Ihrer Zustimmung führen wir diese Arbeiten für ${total} inkl. Umsatzsteuer aus, nie für mehr als ${ceiling}.${ticking ? ` Was Sie ankreuzen oder streichen, ändert ${ticking === "both" ? "beides" : "den Preis"}, und wir bestätigen es zuvor.` : ""}`,
  billed: (most, flat) =>
    `Berechnet werden die tatsächliche Arbeitszeit und die tatsächlich verwendeten Teile, höchstens ${most}${flat ? "; Arbeiten zum Festpreis bleiben dabei" : ""}.`,
  agree: (ticked) => `Ich stimme diesem Kostenvoranschlag${ticked ? " mit dem Angekreuzten" : ""} zu.`,
  agreeInPart: "Ich stimme nur einem Teil zu; was nicht ausgeführt werden soll, habe ich gestrichen.",
  decline: "Ich lehne ab. Bitte geben Sie das Gerät zurück, zusammengebaut, wie es kam.",
  declineRevision: (earlier) =>
    `Ich stimme dieser Fassung nicht zu. Was ich in Fassung ${earlier} vereinbart habe, bleibt bestehen.`,
  name: "Name",
  signature: "Unterschrift",
  date: "Datum",
  scan: "Antworten",
  yourPage: "Ihre Seite: ",
  typeThere: (number, code) => `. Dort Nummer ${number} und Code ${code} eingeben.`,
};

const letter: Paper["letter"] = {
  inWords: "Was fehlt und was wir tun",
  work: "Die Arbeiten",
  neverMore: "Nie mehr als",
  weStop: "Vorher halten wir an und fragen Sie.",
  ready: "Fertig, ab Ihrer Zustimmung",
  opening: (time) => `Einmal öffnen ist enthalten: ${time}.`,
  paid: (paid, due) => `Bereits bezahlt: ${paid}; noch zu zahlen: ${due}.`,
  mayFind: "Was wir finden können und dann ausführen, ohne erneut zu fragen",
  youChoose: "Sie wählen: Bitte ankreuzen, was Sie wünschen",
  inIt: "im Gesamtbetrag",
  onTop: "zusätzlich",
  filledBox:
    "Ein gefülltes Kästchen ist enthalten; streichen Sie es, um zu verzichten. Mehrere zusammen können anders kosten, was wir bestätigen.",
  more: (paged) => `Alle Posten und Summen: ${paged ? "dort" : "auf Nachfrage, kostenlos"}.`,
  inPart: (paged) =>
    `Nur einem Teil zustimmen: ${paged ? "auf Ihrer Seite, siehe unten" : "Verlangen Sie alle Posten und streichen Sie darin, was nicht ausgeführt werden soll"}.`,
};

const intake: Paper["intake"] = {
  title: "Annahmebeleg",
  received: "Angenommen",
  authority: "Was wir tun dürfen",
  upTo: (limit) =>
    `Wir dürfen das Gerät für höchstens ${limit} inkl. Umsatzsteuer öffnen und untersuchen. Darüber hinaus tun wir nichts, bevor Sie einem Kostenvoranschlag zugestimmt haben.`,
  forFee: (fee, withTax) =>
    `Wir dürfen das Gerät gegen die Pauschale für die Fehlersuche von ${fee}${withTax ? " inkl. Umsatzsteuer" : ""} öffnen und untersuchen. Lehnen Sie unseren Kostenvoranschlag dann ab, schulden Sie auch das Öffnen und Schließen; was alles zusammen höchstens kostet, steht im Kostenvoranschlag. Darüber hinaus tun wir nichts, bevor Sie einem Kostenvoranschlag zugestimmt haben.`,
  nothing: "Wir tun nichts, was Sie etwas kostet, bevor Sie einem Kostenvoranschlag zugestimmt haben.",
  bring: "Bitte bringen Sie diesen Beleg mit, wenn Sie das Gerät abholen.",
  tag: "Anhänger: hier abschneiden und am Gerät befestigen.",
};

export const paper: Paper = { furniture, head, unit, inShort, ledger, taxTable, choices, agreement, letter, intake };

export const paperMeaning: Words["paperMeaning"] = {
  heading: "Was die Beträge bedeuten",
  ceiling: "Nie mehr als",
  notAbove: (ceiling) => `Wir gehen nicht ohne neue Zustimmung über ${ceiling} inkl. Umsatzsteuer hinaus.`,
  ifDeclined: "Bei Ablehnung",
  agreedStands: (earlier) =>
    `Was Sie in Fassung ${earlier} vereinbart haben, bleibt bestehen; diese Fassung abzulehnen kostet nichts.`,
  owed: "Was Sie schulden, wenn Sie ablehnen, nachdem das Gerät geöffnet wurde.",
  owedFor: (diagnosis, access) => `Fehlersuche ${diagnosis}, Öffnen und Zusammenbau ${access}`,
  stoppedAt: (parts, amount) => `${parts}, begrenzt auf den vereinbarten Betrag: ${amount}.`,
  comesTo: (parts, amount) => `${parts}: ${amount}.`,
  deposit: "Anzahlung",
  noDeposit: "Keine.",
  beforeWork: (amount) => `${amount} als Teil des Gesamtbetrags, vor Beginn der Arbeit.`,
  partOfTotal: (amount) => `${amount} als Teil des Gesamtbetrags.`,
  days: "Tage",
  daysFrom: (total, queue, lead, bench) =>
    `Etwa ${total} ${total === 1 ? "Tag" : "Tage"} ab Ihrer Zustimmung: ${queue} bis zum freien Arbeitsplatz, ${lead} Wartezeit auf Teile, ${bench} in Arbeit.`,
  restsOn: "Grundlage",
  opening: (how) => `Das Öffnen ist angesetzt ${how}.`,
  openingCharged: (time) => `Berechnet werden ${time}, das Mittel solcher Zeiten.`,
  work: (how) => `Die Arbeit ist gezählt ${how}.`,
  shareOfValue: (percent, value) => `Der Gesamtbetrag ist ${percent} des von Ihnen angegebenen Werts von ${value}.`,
  aboveYourCeiling: (most) =>
    `Erlaubt hatten Sie höchstens ${most}: Die Arbeit wartet auf Ihre Antwort, und mit der Zustimmung erlauben Sie so viel.`,
};

export const paperChanges: Words["paperChanges"] = {
  heading: (earlier) => `Änderungen gegenüber: ${earlier}`,
  replaces: (earlier) => `Dieser Kostenvoranschlag ersetzt ${earlier}`,
  otherCurrency: "; der vorige war in einer anderen Währung, die beiden werden nicht verglichen.",
  marked: " Ab „Arbeiten und Teile“ trägt jede geänderte Zeile einen Balken am Rand und ein Wort daneben.",
  whyTotalChanged: "Warum sich der Gesamtbetrag geändert hat",
  taxIncluded: "Inkl. Umsatzsteuer",
  difference: "Unterschied",
  totalOf: (earlier) => `Gesamtbetrag bisher (${earlier})`,
  totalNow: "Gesamtbetrag jetzt inkl. Umsatzsteuer",
  notSplit: "Die Preise werden seither anders ermittelt, der Unterschied ist daher nicht nach Ursachen aufgeteilt.",
  theTerms: "die Bedingungen",
  writtenAnew: (what) => `Neu gefasst: ${what}.`,
  ...{ faults: "Seither gefundene Fehler, jeder für sich", ofItShared: "Davon gemeinsam", together: "Zusammen, im Gesamtbetrag" },
  newPlace: (place) => `${place} stand bisher nicht im Kostenvoranschlag.`,
  ...{ onlyIfNecessary: "Nur, wenn es sich als nötig erweist.", yoursToChoose: "Eine Zusatzarbeit nach Ihrer Wahl." },
  rows: "Arbeiten, Teile und Zuschläge",
  offers: "Zusatzarbeiten und mögliche Arbeiten: eigene Preise inkl. Umsatzsteuer",
  ...{ change: "Änderung", was: "Bisher", isNow: "Jetzt" },
  unchanged: "Alles Unveränderte",
  withoutTax: "Ohne Umsatzsteuer",
  tax: "Umsatzsteuer",
  total: "Gesamtbetrag inkl. Umsatzsteuer",
  foundSince: "Seither gefunden",
  provedNecessary: "Als nötig erwiesen",
  optionTaken: "Zusatzarbeit gewählt oder Arbeit weggelassen",
};

export const quotation: Words["quotation"] = {
  ceiling: (amount) => `Nie mehr als, inkl. Umsatzsteuer: ${amount}`,
  earlierRevision: "Frühere Fassung",
  noWork: "Noch keine Arbeit gewählt",
  optional: "Zusatzarbeit: der Preis zusätzlich zu diesem Angebot, alles andere unverändert.",
  ifFound: (covered) => `Nur bei Bedarf: ${covered ? "in diesem Angebot enthalten" : "der Preis zusätzlich zu diesem Angebot"}.`,
  chance: (share) => ` Wahrscheinlichkeit: ${share}.`,
};
