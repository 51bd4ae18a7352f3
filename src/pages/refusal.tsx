/** What a browser sees when a request is refused before any page could answer. */
import { Bare } from "./frame/layout.js";

interface RefusalProps {
  readonly style: string | undefined;
  readonly title: string;
  readonly detail: string;
  /** To find the request in the server's log. */
  readonly request: string;
}

export const Refusal = ({ style, title, detail, request }: RefusalProps) => (
  <Bare style={style} title={title}>
    <h1>{title}</h1>
    {detail === title ? null : <p>{detail}</p>}
    <p>
      Go back to what you were doing, or to <a href="/">the first page</a>.
    </p>
    <p>
      <small class="hint">Request {request}</small>
    </p>
  </Bare>
);
