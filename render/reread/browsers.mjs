// Opens a PDF in PDFium and in pdf.js and prints what they make of it as JSON; sizes in millimetres.
// node browsers.mjs NODE_MODULES FILE.pdf
import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { pathToFileURL } from "node:url";

const [modules, file] = process.argv.slice(2);
const require = createRequire(modules + "/");
const load = (name) => import(pathToFileURL(require.resolve(name)).href);
const bytes = await readFile(file);
const mm = (points) => (points * 25.4) / 72;

async function pdfium() {
  const { PDFiumLibrary } = await load("@hyzyla/pdfium");
  const library = await PDFiumLibrary.init();
  const document = await library.loadDocument(bytes);
  const result = { Sizes: [], Ink: [] };
  for (const page of document.pages()) {
    const { originalWidth, originalHeight } = page.getOriginalSize();
    result.Sizes.push({ W: mm(originalWidth), H: mm(originalHeight) });
    const { data } = await page.render({ scale: 0.5, render: "bitmap" });
    result.Ink.push(data.some((value, i) => i % 4 < 3 && value < 128));
  }
  document.destroy();
  library.destroy();
  return result;
}

async function pdfjs() {
  const { getDocument } = await load("pdfjs-dist/legacy/build/pdf.mjs");
  const document = await getDocument({ data: new Uint8Array(bytes), verbosity: 0 }).promise;
  const result = { Sizes: [], Labels: (await document.getPageLabels()) ?? [], Layers: [], Titles: [] };
  for (let i = 1; i <= document.numPages; i++) {
    const [x0, y0, x1, y1] = (await document.getPage(i)).view;
    result.Sizes.push({ W: mm(x1 - x0), H: mm(y1 - y0) });
  }
  result.PrintScaling = (await document.getViewerPreferences())?.PrintScaling ?? "";
  const groups = await document.getOptionalContentConfig();
  for (const id of groups.getOrder() ?? []) result.Layers.push(groups.getGroup(id).name);
  const visit = (items) => {
    for (const item of items ?? []) {
      result.Titles.push(item.title);
      visit(item.items);
    }
  };
  visit(await document.getOutline());
  await document.destroy();
  return result;
}

console.log(JSON.stringify({ PDFium: await pdfium(), PDFjs: await pdfjs() }));
