/**
 * What makes PNG and PDF: large and seldom wanted, so a bundle of its own, `dist/paper.js`, which runs in Node and in a browser
 * alike. Node takes it by `require`; in a page it is `ampscribePaper`. Typeface and module are handed in.
 */
export { pdfOf } from './pdf.ts';
export { pngOf } from './png.ts';
