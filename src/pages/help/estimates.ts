/** Guides to making an estimate. */
import type { Guide } from "./guide.js";

export const estimates: readonly Guide[] = [
  {
    slug: "first-day",
    title: "Your first day",
    gist: "Set the shop up, make the rates your own, write a first estimate",
    pages: ["/", "/set-up"],
    text: `
1. **Look at the demo shop first.** Started once more with an empty folder and another port, the program opens one beside your own; the README has the line. Everything in it is invented, and nothing you do there can go wrong. *Models*, then *New estimate* beside one of them, then *PDF*: that is a whole estimate.
2. **Set up your own.** *Set up the shop* asks for name, currency, hourly rate, tax and diagnosis fee, and makes the first account.
3. **Say what an hour costs.** The times in the first rate book are common practice without a source: a start, not a truth. [Make them your own](/help/rate-book).
4. **Take a unit in.** [What came in and what it does](/help/intake) is enough to save; the work may come later.
5. **Count the work**, [assembly by assembly](/help/counting), and print or [issue](/help/issuing) the estimate.
6. **Log what you do** [at the bench](/help/bench) and [close the job](/help/closing). After a few closed jobs the shop [learns its own times](/help/learning).

## What is next {#next}

The first page lists what is open, one row a job: its state and what is next; below, what was closed lately and is unpaid, or over. Each state is a link that narrows the list. A job is one visit of one unit; its estimate may have several revisions.
`,
  },
  {
    slug: "intake",
    title: "Taking a unit in",
    gist: "Who brought what, how it looks, how far you may open it; the receipt and the tag",
    pages: ["/jobs/:id/photos", "/jobs/:id/photos/on-paper"],
    text: `
Maker or model is enough to save. Whose it is and what it does can wait until the estimate is issued; *Owner, complaint and condition* takes it down. A serial number or an owner's name that was here before says so and leads to the earlier jobs.

*Intake receipt and tag* prints what came in and how it looked, how far you may open it before asking again, a place to sign, and a tag for the unit.

What you type is kept in this browser until it is on record, and offered again after a crash. Signing out forgets it. A new estimate is kept by the shop too while you type: the first page and *New estimate* offer it on any device you are signed in on, to go on with or throw away. It is no job and has no number. The last ten of each person are kept, each for thirty days after it was last typed; saving one takes it away. Where two devices went on with the same one, both are offered.

## Condition grade {#condition}

How worn the unit is. A worse grade takes longer, and its times spread wider: all work on one unit shares that. Both figures stand in the rate book.

## Hazards {#hazards}

A unit counts as mains powered until someone says otherwise under *Hazards of this unit*. See [safety](/help/safety).

## Photos {#photos}

JPEG, PNG or WebP, on the job's page. Where and with what they were taken is removed. Tick those that the estimate should print on its last pages; the owner sees them on their page too.
`,
  },
  {
    slug: "counting",
    title: "Counting work by assembly",
    gist: "Lines, counts by part type, boards by size; your own words",
    pages: ["/estimates/new", "/estimates/:id", "/estimates/:id/lines", "/jobs/:id/revisions"],
    text: `
An assembly is a board, a panel, a supply, a keybed: whatever comes out as one. The assemblies stand on one side, each with what it comes to; beside them are the lines of the one you chose.

- Type a line as \`12 film capacitor\` and press Enter. Paste several lines or a parts list into the same box.
- Enter and the arrows go from line to line. Alt and an arrow moves a line; Ctrl and Delete removes it, and *Put it back* is there.
- *Counts by part type* shows the same lines as one table for all assemblies.

How much you know decides how you fill it in:

| you know | fill in | access is then |
| --- | --- | --- |
| the model | maker and model, *Start from this model's map* | by the fasteners of the map |
| the boards, not their screws | assemblies by name | by standard, per board |
| only how many boards | *Boards by size, without names* | by standard, with a wider spread |

Each can be refined into the one above it without typing anything twice. On the demo models, access by the standards of the first rate book is within 3 % of what the maps say, its cost within 6 %, and the totals within 7 %. One unit of another make may lie anywhere in the spread printed.

## Access {#access}

The time to open the unit as far as the work needs, and to close it again. It is charged once for each opening, however many parts are changed behind it, and never per part. Of several boards behind one panel, count one as behind it and the rest as on top: the panel is then paid once. Where the [map](/help/map) is known, its fasteners decide.

## Set-ups {#set-ups}

Getting ready for a kind of work: tools, bench space, test gear. It is charged once for each assembly and kind of work, whatever the count. Where boards are counted and not named, only replacements are set up on each board; cleaning and tests are set up once for the unit. *Set up on each counted board* in the rate book says so.

## Expected time {#expected}

Each time has a shortest, a likely and a longest figure. Time charged is the expected one, (shortest + 4 × likely + longest) / 6, because times run over more than under. Open a line's explanation to see all of them.

## Your own words {#own-words}

Type work or a part that is on no list: the rest of the line unfolds and asks. Work wants its minutes, or a fixed price each. A part wants what one costs; *The owner brings it* makes it cost nothing, and then it carries no warranty of yours. *Keep these words for next time* puts them on the lists when you save.
`,
  },
  {
    slug: "map",
    title: "When a board hides another: the map",
    gist: "What must come off first, what comes out together, and how it goes back",
    pages: ["/models", "/models/new", "/models/import", "/models/:id", "/models/:id/edit"],
    text: `
The teardown map of a model says what must come off to reach each assembly, what comes out together, and what must go back before what. It is drawn once for a model and used for every unit of it.

- *Change the map* redraws while you type. A ring (each behind the other) or a name that is not there is drawn and named.
- Screws, nuts, knobs, connectors and wires are counted per assembly; the rate book says what each takes. A time you measured yourself may stand in their place.
- *Take counts of earlier jobs of this model*, on a new estimate, fills empty cells with the usual count of the latest 200 jobs. They go to assemblies of the same name; what the unit has no such assembly for is left out and named. Each is marked until you change it. A count that stands there already stays; where earlier jobs usually had another, both figures are told. What the job of this model that was closed last took, against what was planned, stands above the lines.
- *Copy it to another model* and *Download the map* share a map; *Read in a map* shows what a file would do before it is kept.

A map you sketch on an estimate is kept for the next unit of that model.
`,
  },
  {
    slug: "scarce-parts",
    title: "Scarce parts and what their margin is",
    gist: "Why a used part costs more than its price: how many must be bought to have one that works",
    pages: [],
    text: `
A part that is new and to be had costs its price, the mark-up and its freight. A part that is only to be had used, or pulled from another unit, may prove bad: you may have to buy three to have one that works. What that costs beyond the price is the risk margin. It is a line of its own that unfolds into the sum behind it, and never a hidden percentage.

## Margin {#margin}

Where [offers](/help/offers) are recorded, the margin is what the cheapest way of getting enough good pieces is expected to cost beyond the catalogue price, and so much more as the shop's service level wants. Where no offer is recorded, or the rate book always goes by its percentages, that percentage applies, and the line says so. A price that covers the risk has it among what cannot be known yet instead. You may set a percentage by hand; you are then told what your own offers say.

In the first rate book the service level is 0.9: used parts of which 60 in 100 prove good want three bought for each one needed, so the margin is 200 %. Parts pulled from donor units, 70 in 100 good, want two: 100 %.

## Share good {#share-good}

Of a hundred such pieces from this source, how many work. 70 means seven in ten. New parts have 100. Write down what you tested when [goods come in](/help/parts), and the offer carries your own share from then on.

## How hard to get {#scarcity}

In stock, to order, scarce or donor only: worked out from stock and offers, or set by hand where nothing is recorded, under *Parts that are hard to get*.
`,
  },
  {
    slug: "possible-work",
    title: "Possible work, options and packages",
    gist: "What may be found, what the owner may choose, and sets of options side by side",
    pages: [],
    text: `
## Certainty {#certainty}

- **Planned**: it will be done.
- **If found**: agreed in advance, at a printed price, and charged only when it proves necessary. Give it a chance: 30 means three such units in ten need it.
- **Optional**: the owner chooses.

Once it turns up, log it or tick it off: what is still to pay has it from then on, and the next revision has it as planned. What of it passes the limit agreed is told beside it at the bench.

The price printed for work that may be found is never exceeded: where several turn up, the lower of the sum of their prices and the price of the set is charged.

## Options {#options}

Options share the opening with the rest of the work. So the price of an option is what it adds to what is chosen already, and the price of a set is worked out for that set, never summed. Work with the same *Group* is found or chosen together.

## Packages {#packages}

Two or three sets of options, with names of your own such as minimal, advised and full, under *What the owner gets*, on the job's page and that of its estimate. Each stands on paper and page at what all comes to when exactly that set is agreed to. The owner takes one and may still change single ticks.
`,
  },
  {
    slug: "pricing",
    title: "Price, ceiling and what it may cost you",
    gist: "Who carries the risk of what turns up: as counted, fixed price, or time and parts",
    pages: [],
    text: `
## Pricing {#pricing}

*Pricing*, under *Terms of this estimate*, says who carries the risk of what turns up:

| pricing | the owner is asked for |
| --- | --- |
| as counted | expected times, and a margin on scarce parts; what is found comes on top |
| fixed price | the same whatever turns up; what it holds above the count stands in lines of its own |
| time and parts, with a ceiling | what is counted; the ceiling leaves room for the rest |
| expected cost plus a margin | a fixed price: the average of such jobs, and so many percent of it |

80 under *Jobs in 100 to cover* means a price that covers 8 jobs in 10. *Least margin* raises the price, or the ceiling, until so much of it is left over the expected cost.

## Ceiling: never more than {#ceiling}

The amount above which you may not go without a new agreement. Owners read it as *Never more than*. It has room for all that was agreed in advance, at least for the dearest single piece of work that may be found; where all of it together could pass the ceiling, you and the owner are told before issuing. An owner may set a lower one.

## If declined after opening {#declined}

What is owed when the owner says no after you looked: the diagnosis fee, the opening done and the closing up, and never more than the limit agreed.

## Deposit {#deposit}

Asked for when the owner agrees: a share of the scarce parts, which must be paid for up front, and a share of the labour. Both stand in the rate book. The deposit is the one promised for the very set that was agreed to, and the job says what is [still awaited](/help/payments).

## What it may cost you {#risk}

*What it may cost you* never reaches the owner. It tells what 4 jobs in 5 like this cost you, how often the price loses money and how much, and by when the job is likely ready. *Expert view* adds the curve and where the risk comes from. It rests on the spread of each time, the condition grade, the chance of each *if found* and the share of good pieces: the answer is as good as they are.
`,
  },
];
