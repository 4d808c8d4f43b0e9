/** Writes the highlighting grammar from the vocabulary, so that a new kind or clause is coloured without another edit. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { textMateGrammar } from '../../grammar/textmate.ts';
import { vocabulary } from './vocabulary.ts';

export function textMateText(): string {
  return `${JSON.stringify(textMateGrammar(vocabulary), null, 2)}\n`;
}

export function writeTextMate(folder: string): boolean {
  const path = join(folder, 'ampscribe.tmLanguage.json');
  const text = textMateText();
  let before = '';
  try {
    before = readFileSync(path, 'utf8');
  } catch {
    // A first run has nothing to compare with.
  }
  if (before === text) return false;
  writeFileSync(path, text);
  return true;
}
