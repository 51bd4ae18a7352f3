/** What the reference page reads of the OpenAPI document, and how it is ordered for reading. */
import type { Schema } from "./schema.js";

interface Parameter {
  readonly name: string;
  readonly in: string;
  readonly required?: boolean;
  readonly description?: string;
  readonly schema: Schema;
}

interface Answer {
  readonly description: string;
  readonly content?: Readonly<Record<string, { readonly schema: Schema }>>;
  readonly headers?: Readonly<Record<string, { readonly description?: string }>>;
}

interface Operation {
  readonly tags?: readonly string[];
  readonly operationId: string;
  readonly summary?: string;
  readonly description?: string;
  readonly parameters?: readonly Parameter[];
  readonly requestBody?: { readonly content: Readonly<Record<string, { readonly schema: Schema }>> };
  readonly responses: Readonly<Record<string, Answer>>;
}

export interface ApiDocument {
  readonly info: { readonly description: string };
  readonly paths: Readonly<Record<string, Readonly<Record<string, Operation>>>>;
  readonly components: {
    readonly schemas: Readonly<Record<string, Schema>>;
    readonly securitySchemes: Readonly<Record<string, { readonly description: string }>>;
  };
}

export interface Listed extends Operation {
  readonly method: string;
  readonly path: string;
}

interface Resource {
  readonly name: string;
  readonly operations: readonly Listed[];
}

export const anchorOf = (name: string): string => name.replaceAll(" ", "-");

/** In the order of the document. */
export function resourcesOf({ paths }: ApiDocument): readonly Resource[] {
  const found = new Map<string, Listed[]>();
  for (const [path, methods] of Object.entries(paths))
    for (const [method, operation] of Object.entries(methods)) {
      const name = operation.tags?.[0] ?? "other";
      found.set(name, [...(found.get(name) ?? []), { ...operation, method: method.toUpperCase(), path }]);
    }
  return [...found].map(([name, operations]) => ({ name, operations }));
}

export const isRefusal = (status: string): boolean => Number(status) >= 400;

/** Refusals that most operations share are told once. */
const SHARED = 10;

export interface SharedRefusal {
  readonly id: string;
  readonly status: string;
  readonly says: string;
}

export function sharedRefusals(resources: readonly Resource[]): readonly SharedRefusal[] {
  const counts = new Map<string, number>();
  for (const { responses } of resources.flatMap(({ operations }) => operations))
    for (const [status, { description }] of Object.entries(responses))
      if (isRefusal(status)) counts.set(`${status} ${description}`, (counts.get(`${status} ${description}`) ?? 0) + 1);
  return [...counts]
    .filter(([, times]) => times >= SHARED)
    .map(([text]) => ({ status: text.slice(0, 3), says: text.slice(4) }))
    .sort((a, b) => a.status.localeCompare(b.status))
    .map((refusal, index) => ({ ...refusal, id: `refusal-${index + 1}` }));
}
