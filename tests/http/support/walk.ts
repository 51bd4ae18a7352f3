/** The pages that links lead to, from some on; of pages of one kind two are seen. */
export interface Paged {
  readonly path: string;
  readonly answer: Response;
  readonly html: string;
}

interface Asked {
  readonly request: (address: string, init?: RequestInit) => Response | Promise<Response>;
}

/** An address with figures and ids taken out. */
export const kindOf = (path: string): string => path.replaceAll(/[0-9a-f-]{20,}|\d+/g, "*");

export async function* pagesFrom(app: Asked, most: number, starts: readonly string[] = ["/"]): AsyncGenerator<Paged> {
  const [seen, left, kinds] = [new Set(starts), [...starts], new Map<string, number>()];
  for (let asked = 0; left.length > 0 && asked < most; asked += 1) {
    const path = left.shift()!;
    const answer = await app.request(`http://localhost:4700${path}`, { headers: { accept: "text/html" } });
    if (!(answer.headers.get("content-type") ?? "").startsWith("text/html")) continue;
    const html = await answer.text();
    for (const [, href] of html.matchAll(/<a [^>]*?href="(\/[^"#]*)/g)) {
      const to = href!.replaceAll("&amp;", "&");
      const kind = kindOf(to);
      if (seen.has(to) || (kinds.get(kind) ?? 0) >= 2) continue;
      kinds.set(kind, (kinds.get(kind) ?? 0) + 1);
      seen.add(to);
      left.push(to);
    }
    yield { path, answer, html };
  }
}
