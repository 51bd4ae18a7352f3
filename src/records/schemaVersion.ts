/** How many migrations this program was written for; a test holds it against the files in `migrations`. */
export const SCHEMA_VERSION = 29;
