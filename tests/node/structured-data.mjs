// Reads the JSON-LD of HTML files (paths on standard input, a line each) with two outside opinions:
// schema.org's vocabulary as types (schema-dts, checked by TypeScript), and the search engines' rules
// for rich results. Prints a JSON list of {file, source, severity, path, message}.
import { readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

import Validator from "@adobe/structured-data-validator";
import WebAutoExtractor from "@marbec/web-auto-extractor";
import ts from "typescript";

const here = dirname(fileURLToPath(import.meta.url));
const files = readFileSync(0, "utf8").split("\n").filter(Boolean);
const found = [];

// --- the search engines' rules ---------------------------------------------------------------------

const pages = new Map(files.map((file) => [file, readFileSync(file, "utf8")]));
for (const [file, html] of pages) {
  const extractor = new WebAutoExtractor({ addLocation: true, embedSource: ["rdfa", "microdata"] });
  const data = extractor.parse(html);
  for (const error of data.errors || []) {
    found.push({ file, source: "reader", severity: "error", path: "", message: error.message });
  }
  for (const issue of await new Validator().validate(data)) {
    found.push({
      file,
      source: "search engines",
      severity: issue.severity.toLowerCase(),
      path: issue.path.map((step) => step.property || step.type || step.index).join("."),
      message: issue.issueMessage,
    });
  }
}

// --- schema.org's vocabulary -----------------------------------------------------------------------

// Every block becomes a constant of its own type, in one program, so that types are read once.
const blocks = [];
for (const [file, html] of pages) {
  for (const [, text] of html.matchAll(/<script type="?application\/ld\+json"?>(.*?)<\/script>/gs)) {
    const data = JSON.parse(text);
    for (const node of data["@graph"] || [data]) blocks.push({ file, node });
  }
}
const types = [...new Set(blocks.map(({ node }) => node["@type"]))];
const lines = [
  `import type { ${types.join(", ")}, WithContext } from "schema-dts";`,
  ...blocks.map(({ node }, n) => {
    const of = node["@context"] ? `WithContext<${node["@type"]}>` : node["@type"];
    return `export const block${n}: ${of} = ${JSON.stringify(node)};`;
  }),
];
const name = join(here, "blocks.ts");
const options = {
  strict: true,
  noEmit: true,
  skipLibCheck: true,
  types: [],
  module: ts.ModuleKind.ESNext,
  moduleResolution: ts.ModuleResolutionKind.Bundler,
};
const host = ts.createCompilerHost(options);
const { getSourceFile, fileExists } = host;
host.fileExists = (path) => path === name || fileExists(path);
host.getSourceFile = (path, ...rest) =>
  path === name
    ? ts.createSourceFile(name, lines.join("\n"), ts.ScriptTarget.ESNext, true)
    : getSourceFile(path, ...rest);
const program = ts.createProgram([name], options, host);
for (const { file: source, start, messageText } of ts.getPreEmitDiagnostics(program)) {
  const row = source ? source.getLineAndCharacterOfPosition(start).line : 0;
  found.push({
    file: row ? blocks[row - 1].file : "",
    source: "schema.org",
    severity: "error",
    path: source ? source.text.slice(start, start + 60) : "",
    message: ts.flattenDiagnosticMessageText(messageText, " ").slice(0, 600),
  });
}

console.log(JSON.stringify({ found, blocks: blocks.length, types }));
