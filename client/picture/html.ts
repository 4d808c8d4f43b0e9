/** The page that a picture is shown in: it may run its own script and take its own style sheet, and fetch nothing at all. */

export interface PageParts {
  readonly script: string;
  readonly style: string;
  /** Where the editor serves files of the extension from (`Webview.cspSource`). */
  readonly source: string;
  readonly nonce: string;
  readonly title: string;
  /** The spec, for the page to ask for. */
  readonly uri: string;
}

export function pageHtml({ script, style, source, nonce, title, uri }: PageParts): string {
  const policy = `default-src 'none'; style-src ${source}; script-src 'nonce-${nonce}'`;
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${escaped(policy)}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escaped(title)}</title>
<link rel="stylesheet" href="${escaped(style)}">
</head>
<body data-uri="${escaped(uri)}">
<script nonce="${nonce}" src="${escaped(script)}"></script>
</body>
</html>
`;
}

/** Of letters and figures only, from the system's own source of chance. */
export function newNonce(): string {
  return Array.from(crypto.getRandomValues(new Uint8Array(24)), (byte) => byte.toString(16).padStart(2, '0')).join('');
}

function escaped(words: string): string {
  const entities: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };
  return words.replace(/[&<>"]/g, (sign) => entities[sign] ?? sign);
}
