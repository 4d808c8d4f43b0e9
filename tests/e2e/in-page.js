/** Runs inside the editor's page: as what exactly these words of a line in sight are underlined; undefined while they are not. */
globalThis.ampscribeUnderlinedAs = (lineText, words) => {
  const plain = (text) => (text ?? '').replaceAll('\u00a0', ' ');
  for (const line of document.querySelectorAll('.monaco-editor .view-lines .view-line')) {
    const text = plain(line.textContent);
    // A swatch beside a colour is a space more.
    const single = (spaces) => spaces.replaceAll(/ +/g, ' ');
    if (!single(text).includes(single(lineText))) continue;
    const wanted = rangeOf(line, text.indexOf(words), words.length).getBoundingClientRect();
    for (const severity of ['error', 'warning', 'info'])
      for (const mark of document.querySelectorAll(`.monaco-editor .squiggly-${severity}`)) {
        const is = mark.getBoundingClientRect();
        const beside = Math.abs(is.left - wanted.left) < 3 && Math.abs(is.right - wanted.right) < 3;
        if (beside && Math.abs(is.bottom - wanted.bottom) < 8) return severity;
      }
  }
  return undefined;

  function rangeOf(line, from, length) {
    const range = document.createRange();
    let at = 0;
    let started = false;
    const walker = document.createTreeWalker(line, NodeFilter.SHOW_TEXT);
    for (let node = walker.nextNode(); node !== null; node = walker.nextNode()) {
      const end = at + node.textContent.length;
      if (!started && from < end) {
        range.setStart(node, from - at);
        started = true;
      }
      if (from + length <= end) {
        range.setEnd(node, from + length - at);
        break;
      }
      at = end;
    }
    return range;
  }
};
