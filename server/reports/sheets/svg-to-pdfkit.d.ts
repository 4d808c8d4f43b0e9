/** What is used of the library, which brings no types. */
declare module 'svg-to-pdfkit' {
  interface Options {
    readonly width?: number;
    readonly height?: number;
    readonly fontCallback?: (family: string, bold: boolean, italic: boolean) => string;
    readonly warningCallback?: (warning: string) => void;
  }

  function toPdf(document: PDFKit.PDFDocument, svg: string, x: number, y: number, options: Options): void;
  export default toPdf;
}
