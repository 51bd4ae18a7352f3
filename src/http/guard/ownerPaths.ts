/** The only pages that are open to people without the shop's secret: those of an owner with a link. */
import { OWNER_PATHS } from "../../pages/owner/view.js";

const paths = new Set<string>(Object.values(OWNER_PATHS));

export const isOwnerPath = (path: string): boolean => paths.has(path);
