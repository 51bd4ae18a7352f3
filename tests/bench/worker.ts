/** The works as src/worker.ts starts: the engine rehearsed before the first request. */
import { rehearse } from "../../src/http/app/rehearse.js";
import unrehearsed from "./unrehearsed.js";

rehearse();

export default unrehearsed;
