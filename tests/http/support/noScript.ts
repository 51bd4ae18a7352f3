/** A browser without script over the app itself: keeps cookies, follows redirects, fills in forms and presses buttons. */
export interface Seen {
  readonly status: number;
  readonly html: string;
  /** With its query. */
  readonly path: string;
  readonly headers: Headers;
}

interface App {
  readonly request: (url: string, init?: RequestInit) => Response | Promise<Response>;
}

/** A text, several for ticks of one name, or null to leave the field out. */
export type Filled = Readonly<Record<string, string | readonly string[] | null>>;

const ORIGIN = "http://localhost:4700";

export function visitor({ app }: { readonly app: App }) {
  const jar = new Map<string, string>();

  async function go(path: string, init: RequestInit = {}): Promise<Seen> {
    const headers = new Headers({
      ...(init.headers as Record<string, string>),
      accept: "text/html",
      "sec-fetch-site": "same-origin",
    });
    if (jar.size > 0) headers.set("cookie", [...jar].map(([name, value]) => `${name}=${value}`).join("; "));
    const answer = await app.request(ORIGIN + path, { ...init, headers });
    for (const set of answer.headers.getSetCookie()) {
      const [, name = "", value = ""] = /^([^=]+)=([^;]*)/.exec(set) ?? [];
      if (/max-age=0/i.test(set)) jar.delete(name);
      else jar.set(name, value);
    }
    const to = answer.headers.get("location");
    if (answer.status === 303 && to) return go(to.replace(ORIGIN, ""));
    const html = await answer.text();
    const stray = strayLinks(html);
    if (stray.length > 0) throw new Error(`${path} ${answer.status}: ${stray.join("; ")}`);
    return { status: answer.status, html, path, headers: answer.headers };
  }

  const send = (path: string, pairs: Iterable<readonly [string, string]>): Promise<Seen> =>
    go(path, {
      method: "POST",
      body: new URLSearchParams([...pairs].map(([name, value]) => [name, value])).toString(),
      headers: { "content-type": "application/x-www-form-urlencoded" },
    });

  return {
    jar,
    get: (path: string) => go(path),
    send,
    /** Fills in the form that holds the button and presses it. */
    press: (seen: Seen, button: string | RegExp, filled: Filled = {}): Promise<Seen> => {
      const { path, pairs } = filledIn(seen, button, filled);
      return send(path, pairs);
    },
  };
}

/** What pressing the button of a page sends, and where. Fields the form does not have are refused. */
export function filledIn({ html, path }: Pick<Seen, "html" | "path">, button: string | RegExp, filled: Filled = {}) {
  const wanted = ({ text }: Button) => (typeof button === "string" ? text === button : button.test(text));
  const form = formsOn(html).find(({ buttons }) => buttons.some(wanted));
  if (!form) throw new Error(`No form with the button '${button}' in\n${words(html)}`);
  const pressed = form.buttons.findLast(wanted)!;
  const names = new Set([...form.names]);
  const left = form.fields.filter(([name]) => !(name in filled));
  const typed = Object.entries(filled).flatMap(([name, values]): [string, string][] => {
    if (!names.has(name)) throw new Error(`No field '${name}' among ${[...names].join(", ")}`);
    return values === null ? [] : [values].flat().map((value) => [name, value]);
  });
  const own: [string, string][] = pressed.name ? [[pressed.name, pressed.value]] : [];
  return { path: pressed.action ?? form.action ?? path, pairs: [...left, ...typed, ...own] };
}

/**
 * Links to a place of the page that is not there, or is there twice: those of an error summary lead to the box that is meant. A line of an
 * estimate is drawn by its script once a link leads there.
 */
export function strayLinks(html: string): string[] {
  const ids = [...html.matchAll(/<[a-z][^>]* id="([^"]+)"/g)].map(([, id]) => text(id!));
  const twice = ids.filter((id, at) => ids.indexOf(id) !== at).map((id) => `id '${id}' stands twice`);
  const known = new Set(ids);
  const nowhere = [...html.matchAll(/<a [^>]*?href="#([^"]+)"/g)]
    .map(([, to]) => decodeURI(text(to!)))
    .flatMap((to) => (known.has(to) || to.startsWith("line.") ? [] : [`a link leads to '#${to}', which is not there`]));
  return [...new Set([...twice, ...nowhere])];
}

/** What a person reads, one line an element. */
export const words = (html: string): string =>
  text(
    html
      .replaceAll(/<(script|style)[^>]*>.*?<\/\1>/gs, "")
      .replaceAll(/<[^>]+>/g, "\n")
      .replaceAll(/\n\s*\n+/g, "\n"),
  );

interface Button {
  readonly text: string;
  readonly name: string;
  readonly value: string;
  readonly action?: string;
}

export function formsOn(html: string) {
  return [...html.matchAll(/<form ([^>]*)>(.*?)<\/form>/gs)].map(([, head = "", body = ""]) => {
    const fields: [string, string][] = [];
    const names = new Set<string>();
    for (const [, tag, attributes = "", inner = ""] of body.matchAll(
      /<(input|textarea|select) ([^>]*?)\/?>(?:((?:(?!<input|<textarea|<select).)*?)<\/(?:textarea|select)>)?/gs,
    )) {
      const name = of(attributes, "name");
      if (name === undefined) continue;
      names.add(name);
      if (tag === "input" && of(attributes, "type") === "checkbox" && !/ checked/.test(attributes)) continue;
      if (tag === "input") fields.push([name, of(attributes, "value") ?? ""]);
      // HTML drops one line break at the start of a text area.
      if (tag === "textarea") fields.push([name, text(inner).replace(/^\r?\n/, "")]);
      if (tag === "select") {
        const options = [...inner.matchAll(/<option ([^>]*)>/g)].map(([, option = ""]) => option);
        const chosen = options.find((option) => option.includes("selected")) ?? options[0] ?? "";
        fields.push([name, of(chosen, "value") ?? ""]);
      }
    }
    const buttons = [...body.matchAll(/<button ([^>]*)>(.*?)<\/button>/gs)].map(([, attributes = "", inner = ""]): Button => {
      const action = of(attributes, "formaction");
      return {
        text: text(inner.replaceAll(/<[^>]+>/g, ""))
          .replaceAll(/\s+/g, " ")
          .trim(),
        name: of(attributes, "name") ?? "",
        value: of(attributes, "value") ?? "",
        ...(action !== undefined && { action }),
      };
    });
    return { action: of(head, "action"), fields, names, buttons };
  });
}

function of(attributes: string, name: string): string | undefined {
  const found = new RegExp(`(?:^| )${name}="([^"]*)"`).exec(attributes)?.[1];
  return found === undefined ? undefined : text(found);
}

const text = (raw: string): string =>
  raw.replaceAll("&quot;", '"').replaceAll("&lt;", "<").replaceAll("&gt;", ">").replaceAll("&#39;", "'").replaceAll("&amp;", "&");
