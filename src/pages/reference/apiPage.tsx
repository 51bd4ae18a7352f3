/** The API as a page, from its own OpenAPI document: every operation and every schema has an anchor. */

import type { Child } from "hono/jsx";
import { type Frame, Page } from "../frame/layout.js";
import { Table } from "../frame/table.js";
import {
  type ApiDocument,
  anchorOf,
  isRefusal,
  type Listed,
  resourcesOf,
  type SharedRefusal,
  sharedRefusals,
} from "./document.js";
import { type Member, membersOf, type Schema, type Shape, saysOf, shapeOf } from "./schema.js";

export const ApiPage = ({ frame, reference }: { readonly frame: Frame; readonly reference: Child }) => (
  <Page frame={frame} title="API reference">
    {reference}
  </Page>
);

/** All of the page that is the same for everyone. */
export const ApiReference = ({ document }: { readonly document: ApiDocument }) => {
  const resources = resourcesOf(document);
  const shared = sharedRefusals(resources);
  return (
    <>
      <h1>API reference</h1>
      <p>{document.info.description}</p>
      <p>
        This page is made from <a href="/openapi.json">/openapi.json</a> (OpenAPI 3.1). Refusals are problem details;{" "}
        <a href="/problems">every kind of problem</a> has a page of its own.
      </p>
      <section aria-label="On this page">
        <ul class="jumps">
          {resources.map(({ name, operations }) => (
            <li>
              <a href={`#${anchorOf(name)}`}>{name}</a> ({operations.length})
            </li>
          ))}
          <li>
            <a href="#refusals">refusals</a>
          </li>
          <li>
            <a href="#schemas">schemas</a>
          </li>
        </ul>
      </section>
      <h2>Who may ask</h2>
      <ul>
        {Object.values(document.components.securitySchemes).map(({ description }) => (
          <li>{description}.</li>
        ))}
        <li>On loopback, before anyone has an account: anyone.</li>
      </ul>
      {resources.map(({ name, operations }) => (
        <section>
          <h2 id={anchorOf(name)}>{name}</h2>
          {operations.map((operation) => (
            <OperationPart operation={operation} shared={shared} />
          ))}
        </section>
      ))}
      <h2 id="refusals">Refusals that many operations share</h2>
      <dl class="plain meanings">
        {shared.map(({ id, status, says }) => (
          <div id={id}>
            <dt>{status}</dt>
            <dd>{says}</dd>
          </div>
        ))}
      </dl>
      <h2 id="schemas">Schemas</h2>
      {Object.entries(document.components.schemas).map(([name, schema]) => (
        <section>
          <h3 id={`schema-${name}`}>{name}</h3>
          {schema.description ? <p>{schema.description}</p> : null}
          <SchemaPart schema={schema} name={name} />
        </section>
      ))}
    </>
  );
};

const OperationPart = ({ operation, shared }: { readonly operation: Listed; readonly shared: readonly SharedRefusal[] }) => {
  const { method, path, operationId, summary, description, parameters = [], requestBody, responses } = operation;
  const answers = Object.entries(responses);
  return (
    <section class="operation">
      <h3 id={operationId}>
        <code>
          {method} {path}
        </code>
      </h3>
      <p>
        {summary}. {description}
      </p>
      {parameters.length > 0 ? (
        <Members
          caption={`Parameters of ${operationId}`}
          rows={parameters.map(({ name, in: where, required, description, schema }) => ({
            name: `${name} (${where})`,
            wanted: required ?? false,
            shape: shapeOf(schema),
            says: saysOf({ ...schema, description: description ?? schema.description ?? "" }),
          }))}
        />
      ) : null}
      {Object.entries(requestBody?.content ?? {}).map(([type, { schema }]) => (
        <>
          <p>
            Body, <code>{type}</code>: <ShapeText {...shapeOf(schema)} />
          </p>
          <SchemaPart schema={schema} name={`body of ${operationId}`} />
        </>
      ))}
      <ul class="answers">
        {answers
          .filter(([status]) => !isRefusal(status))
          .map(([status, { description, content = {}, headers = {} }]) => (
            <li>
              <strong>{status}</strong> {description}
              {Object.entries(content).map(([type, { schema }]) => (
                <>
                  {" "}
                  – <code>{type}</code>: <ShapeText {...shapeOf(schema)} />
                  <SchemaPart schema={schema} name={`answer ${status} of ${operationId}`} />
                </>
              ))}
              {Object.keys(headers).length > 0 ? ` Headers: ${Object.keys(headers).join(", ")}.` : ""}
            </li>
          ))}
        <li>
          Refusals (<a href="#schema-Problem">Problem</a>):{" "}
          {answers
            .filter(([status]) => isRefusal(status))
            .map(([status, { description }], index) => {
              const common = shared.find((one) => one.status === status && one.says === description);
              return (
                <>
                  {index > 0 ? " · " : ""}
                  {common ? <a href={`#${common.id}`}>{status}</a> : <strong>{status}</strong>}
                  {common ? "" : ` ${description}`}
                </>
              );
            })}
        </li>
      </ul>
    </section>
  );
};

const SchemaPart = ({ schema, name }: { readonly schema: Schema; readonly name: string }) => {
  const rows = membersOf(schema);
  if (rows.length > 0) return <Members caption={name} rows={rows} />;
  return schema.enum ? <p>{shapeOf(schema).words}</p> : null;
};

const Members = ({ caption, rows }: { readonly caption: string; readonly rows: readonly Member[] }) => (
  <Table
    class="members"
    caption={caption}
    heads={["Name", "What it is", "Remarks"]}
    rows={rows.map(({ name, wanted, shape, says }) => [
      <code>{name}</code>,
      <>
        <ShapeText {...shape} />
        {wanted ? "" : ", optional"}
      </>,
      says,
    ])}
  />
);

const ShapeText = ({ words, to }: Shape) => (
  <>
    {words} {to ? <a href={`#schema-${to}`}>{to}</a> : null}
  </>
);
