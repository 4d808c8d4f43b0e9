/**
 * Stands in the bundle for the decompressor of typefaces for the web, which is larger than all else that makes a PDF: the
 * typefaces here are plain files.
 */
export default function decompress(): never {
  throw new Error('No typeface for the web is read here.');
}
