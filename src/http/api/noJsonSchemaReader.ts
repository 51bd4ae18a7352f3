/** On the edge, in place of zod's reader of JSON Schema, which nothing asks for (wrangler.toml). */
export const fromJSONSchema = undefined;
