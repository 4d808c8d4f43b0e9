/** What is large and seldom wanted, in a bundle of its own that is loaded when it is: the layout engine, PNG and PDF. */
export { inProcessEngine } from '../picture/elk-engine.ts';
export { pdfOf } from './pdf.ts';
export { pngOf } from './png.ts';
