/** On the edge, in place of what makes a program of a zod schema: it may not be run there, and nothing asks for it (wrangler.toml). */
export const [INVALID, compile, withParser, ZodCompileAsyncError, ZodCompileUnsupportedError]: readonly undefined[] = [];
