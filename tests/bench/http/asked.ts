/** What is asked for, of the demo shop after its year: the same by HTTP in Node and in workerd. */
import { readFile } from "node:fs/promises";
import { Agent, type IncomingHttpHeaders, request } from "node:http";
import { DEMO_JOB } from "../../../src/http/site/ownerLinks.js";

export interface Asked {
  readonly name: string;
  readonly path: string;
  readonly method?: "GET" | "POST";
  readonly headers?: Readonly<Record<string, string>>;
  readonly body?: string;
}

interface Demo {
  readonly jobs: readonly { readonly id: string; readonly estimates: readonly { readonly id: string }[] }[];
}

/** `cookie`: an owner's, of the job that stands with its owner. */
export async function whatIsAsked(cookie: string): Promise<Asked[]> {
  const [largest] = (JSON.parse(await readFile("fixtures/demo/shop.json", "utf8")) as Demo).jobs as [Demo["jobs"][number]];
  return [
    { name: "health", path: "/health" },
    { name: "start page", path: "/" },
    { name: "job page, with its owner", path: `/jobs/${DEMO_JOB}` },
    { name: "job page, largest", path: `/jobs/${largest.id}` },
    { name: "bench page", path: `/jobs/${DEMO_JOB}/bench` },
    { name: "new estimate", path: "/estimates/new" },
    { name: "owner's page", path: "/o/estimate", headers: { cookie } },
    { name: "estimate's PDF, largest", path: `/estimates/${largest.estimates[0]!.id}.pdf` },
    {
      name: "POST /api/estimate",
      path: "/api/estimate",
      method: "POST",
      headers: { accept: "application/json", "content-type": "application/json" },
      body: await readFile("fixtures/demo/tape-echo.json", "utf8"),
    },
  ];
}

/** A link made and followed at once: the cookie an owner has by it. `cookie`: of someone who is signed in. */
export async function ownersCookie(url: string, cookie = ""): Promise<string> {
  const { origin } = new URL(url);
  const entered = await send(url, { name: "link", path: "/demo/owners-page", method: "POST", headers: { origin, cookie } });
  return (entered.headers["set-cookie"] ?? []).map((line) => line.split(";")[0]).join("; ");
}

const agent = new Agent({ keepAlive: true });
export const hungUp = (): void => agent.destroy();

export interface Answer {
  readonly status: number;
  readonly bytes: number;
  readonly headers: IncomingHttpHeaders;
}

export function send(url: string, { path, method = "GET", headers = {}, body }: Asked): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const sent = request(new URL(path, url), { method, agent, headers: { accept: "text/html", ...headers } }, (answer) => {
      let bytes = 0;
      answer.on("data", (chunk: Buffer) => {
        bytes += chunk.length;
      });
      answer.on("end", () => resolve({ status: answer.statusCode!, bytes, headers: answer.headers }));
    });
    sent.on("error", reject);
    sent.end(body);
  });
}
