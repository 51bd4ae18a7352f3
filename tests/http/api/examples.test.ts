import { describe, expect, it } from "vitest";
import { EXAMPLES } from "../../../src/http/api/examples.js";
import { openApiDocument } from "../../../src/http/api/index.js";
import { OPERATIONS, SCHEMAS } from "../../../src/http/api/said.js";
import { agreedFile } from "../support/agreedShop.js";
import { person, tokenOf } from "../support/people.js";
import { shop } from "../support/shop.js";

interface Operation {
  readonly operationId: string;
  readonly description?: string;
  readonly requestBody?: {
    readonly content: Readonly<Record<string, { readonly schema: { readonly $ref?: string }; readonly example?: unknown }>>;
  };
}
const { paths, components } = JSON.parse(openApiDocument()) as {
  readonly paths: Readonly<Record<string, Readonly<Record<string, Operation>>>>;
  readonly components: { readonly schemas: Readonly<Record<string, { readonly description?: string }>> };
};
const operations = Object.entries(paths).flatMap(([path, methods]) =>
  Object.entries(methods).map(([method, operation]) => ({ path, method: method.toUpperCase(), ...operation })),
);
const withBody = operations.flatMap(({ requestBody, ...operation }) => {
  const body = requestBody?.content["application/json"];
  return body ? [{ ...operation, ...body }] : [];
});

const DEMO: Readonly<Record<string, string>> = {
  owners: "01a19b7c-a680-772a-a2a0-9fcf3f132fa2",
  units: "01a1e3cc-9d00-7f4b-a612-df82a8e3dbe4",
  models: "01a19bb3-9500-7dd1-9736-c1da54efa176",
  "part-kinds": "el-1u-100",
  offers: "o01",
  "rate-books": "bench-book",
  // The tape echo, whose first revision is agreed to.
  jobs: "01a1e8fd-0b20-7cb5-9019-4936cadd928a",
  // A draft of another job.
  estimates: "01a211ee-ea80-7973-97f7-b9e60cb54b53",
};
const AGREED = "01a211ee-ea80-702e-af99-f96391e17fee";

/** A manager's program in the shop whose tape echo is agreed to. */
async function program() {
  const opened = await shop({}, (await agreedFile()).path);
  const token = await tokenOf(opened, await person(opened, "Tamsin", "manager"), "read", "write", "admin");
  return (method: string, path: string, body: unknown, more: Record<string, string>) =>
    opened.send(method, path, body, { authorization: `Bearer ${token}`, ...more });
}
type Send = Awaited<ReturnType<typeof program>>;

/** What must stand before: the examples of these operations, in this order; the id of the last is the one in the path. */
const BEFORE: Readonly<Record<string, readonly string[]>> = {
  addAgreement: ["issueEstimate"],
  withdrawOwnerLink: ["addOwnerLink"],
  withdrawLogEntry: ["addLogEntry"],
  withdrawPayment: ["addPayment"],
  correctLogEntry: ["addLogEntry"],
  stopTimer: ["startTimer"],
  previewAgreement: ["issueEstimate"],
  showPhotos: ["addNextEstimate"],
  addOrderEnding: ["addOrder"],
  addGoodsTest: ["addGoodsIn"],
  mergePartKind: ["addPartKind"],
  keepForNextTime: ["replaceEstimate"],
  replaceDonorUnit: ["addDonorUnit"],
  withdrawDonorUnit: ["addDonorUnit"],
  pullFromDonor: ["addDonorUnit"],
  inviteStaff: ["addStaff"],
  giveRole: ["addStaff"],
  closeAccount: ["addStaff"],
  openAccount: ["addStaff"],
  revokeToken: ["makeToken"],
  replaceExchangeRate: ["addExchangeRate"],
  withdrawExchangeRate: ["addExchangeRate"],
};

/** Where an example is sent; `made` is the id of what was made before it. */
function addressOf(operationId: string, path: string, made: string | undefined): string {
  const of = path.split("/")[2]!;
  const id = operationId === "addOwnerLink" ? AGREED : (DEMO[of] ?? made ?? "");
  return path
    .replace("{id}", id)
    .replace("{entry}", made ?? "")
    .replace("{payment}", made ?? "")
    .replace("{what}", "part-kinds");
}

async function run(send: Send, operationId: string): Promise<Response> {
  let made: string | undefined;
  for (const before of BEFORE[operationId] ?? []) made = ((await (await run(send, before)).json()) as { id: string }).id;
  const { method, path, example } = withBody.find((each) => each.operationId === operationId)!;
  const address = addressOf(operationId, path, made);
  const onVersion =
    method === "PUT" ||
    operationId === "issueEstimate" ||
    /^(withdraw(PartKind|Offer|ExchangeRate)|confirmOffer|changeRateBook)$/.test(operationId);
  return send(method, address, example, onVersion ? { "if-match": "*" } : {});
}

/** Nobody has asked anything yet, nothing was photographed, and the job is agreed to. */
const REFUSED: Readonly<Record<string, number>> = { replyToQuestion: 404, removePhoto: 404, addHandBack: 409 };

describe("the document", () => {
  it.each(operations.map(({ operationId, description }) => [operationId, description]))("says what %s does", (_, description) => {
    expect(description?.length ?? 0).toBeGreaterThan(10);
  });

  it("says what each schema is, and names each body", () => {
    expect(Object.entries(components.schemas).flatMap(([name, { description }]) => (description ? [] : [name]))).toEqual([]);
    expect(withBody.flatMap(({ operationId, schema }) => (schema.$ref ? [] : [operationId]))).toEqual([]);
  });

  it("says nothing of what is no operation and no schema", () => {
    const names = operations.map(({ operationId }) => operationId);
    expect(Object.keys({ ...OPERATIONS, ...EXAMPLES }).filter((name) => !names.includes(name))).toEqual([]);
    expect(Object.keys(SCHEMAS).filter((name) => !(name in components.schemas))).toEqual([]);
  });

  it("has an example of each body", () => {
    expect(withBody.length).toBeGreaterThan(40);
    expect(withBody.flatMap(({ operationId, example }) => (example === undefined ? [operationId] : []))).toEqual([]);
  });

  it.each(withBody.map(({ operationId }) => operationId))("has an example of %s that a demo shop takes", async (operationId) => {
    const response = await run(await program(), operationId);
    const wanted = REFUSED[operationId];
    if (wanted !== undefined) expect(response.status).toBe(wanted);
    else expect(response.ok, `${response.status} ${response.ok ? "" : await response.clone().text()}`).toBe(true);
  });
});
