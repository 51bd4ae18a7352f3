/** What a mail program takes for one address: something, one @, something, and no space. Whether it exists nobody knows before it is written to. */
export const EMAIL = /^[^\s@]+@[^\s@]+$/;
export const GIVE_EMAIL = "give one address, such as ines@example.org";
