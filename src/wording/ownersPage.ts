/** What an owner's page and the answer on record say, in a language. Apart from `Words`, which the scripts of the shop's pages carry. */
import { ownersPage as english } from "./english/ownersPage.js";
import { ownersPage as german } from "./german/ownersPage.js";
import { languageOf } from "./tongue.js";

const IN = { en: english, de: german } as const satisfies Readonly<Record<ReturnType<typeof languageOf>, typeof english>>;

export const ownersPageIn = (language: string | undefined): typeof english => IN[languageOf(language)];
