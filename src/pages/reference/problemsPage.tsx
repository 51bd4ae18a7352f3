/** Every kind of problem, as a page: the address in a refusal's `type` leads here. */
import { type Frame, Page } from "../frame/layout.js";

interface ListedProblem {
  readonly type: string;
  readonly name: string;
  readonly status: number;
  readonly meaning: string;
}

interface ProblemsPageProps {
  readonly frame: Frame;
  readonly whole: readonly ListedProblem[];
  readonly within: readonly ListedProblem[];
}

export const ProblemsPage = ({ frame, whole, within }: ProblemsPageProps) => (
  <Page frame={frame} title="Problems">
    <h1>Problems</h1>
    <p>
      What the <a href="/api">API</a> can refuse, as problem details (RFC 9457). The first part answers a whole request; the
      second names places within it (<code>errors</code>), each with a JSON pointer and a text that says what to do.
    </p>
    <h2 id="answers">Of a whole request</h2>
    <List problems={whole} />
    <h2 id="faults">Within what was sent (422)</h2>
    <List problems={within} />
  </Page>
);

export const ProblemPage = ({ frame, problem }: { readonly frame: Frame; readonly problem: ListedProblem }) => (
  <Page frame={frame} title={`Problem: ${problem.name}`}>
    <h1>{problem.name}</h1>
    <p>{problem.meaning}</p>
    <p>
      Answered with status {problem.status}. <a href="/problems">Every kind of problem</a>
    </p>
  </Page>
);

const List = ({ problems }: { readonly problems: readonly ListedProblem[] }) => (
  <dl class="plain meanings">
    {problems.map(({ type, name, status, meaning }) => (
      <div id={name.replaceAll(" ", "-")}>
        <dt>
          <a href={type}>{name}</a> ({status})
        </dt>
        <dd>{meaning}</dd>
      </div>
    ))}
  </dl>
);
