import { domainToASCII } from "node:url";
import { describe, expect, it } from "vitest";
import { webAddress } from "../../../src/documents/layout/setLink.js";

describe("an address that a document may lead to", () => {
  it.each([
    ["https://lanternfold.example/o#Zq7-_x9A", "https://lanternfold.example/o#Zq7-_x9A"],
    ["http://localhost:8787/o?a=1&b=2", "http://localhost:8787/o?a=1&b=2"],
    ["https://lanternfold.example/(a)?b=(c)#\\)", "https://lanternfold.example/%28a%29?b=%28c%29#%5c%29"],
    ["https://žárovka.example/č", `https://${domainToASCII("žárovka.example")}/%C4%8D`],
    ["HTTPS://Lanternfold.example/o p", "https://lanternfold.example/o%20p"],
  ])("is plain ASCII that ends no PDF string: %s", (text, expected) => expect(webAddress(text)).toBe(expected));

  it.each([
    "javascript:alert(1)",
    "file:///etc/passwd",
    "data:text/html,x",
    "//lanternfold.example",
    "lanternfold.example",
    "",
    "https://",
    "https://a b/",
  ])("is nothing but a web address: '%s' leads nowhere", (text) => expect(webAddress(text)).toBeUndefined());
});
