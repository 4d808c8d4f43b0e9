/**
 * What a merge of versions leaves in a file: lines between `<<<<<<<` and `>>>>>>>`, of which `=======` parts the two versions.
 * The first version is read, and one problem tells of all.
 */
import type { ShapedPlaced } from '../../grammar/shaped.ts';
import type { LineBlock } from '../../grammar/text-in-blocks.ts';
import { keptWith } from './lazily.ts';
import type { PlacedProblem, SpecFile } from './model.ts';
import { placeIn, problem } from './place.ts';

/** Marks stand at the beginning of lines, and a block has whole lines. */
const isMarked = keptWith(({ text }: LineBlock) => text.includes('<<<<<<<') && /^<{7}\s/m.test(text));

const mark = /^(?:<{7}|\|{7}|={7}|>{7})(?=\s|$)/;

export interface OneVersion {
  readonly statements: readonly ShapedPlaced[];
  readonly problems: readonly PlacedProblem[];
}

export function oneVersion(file: Pick<SpecFile, 'uri' | 'text'>, statements: readonly ShapedPlaced[]): OneVersion {
  if (!file.text.blocks.some(isMarked)) return { statements, problems: [] };
  const kept: ShapedPlaced[] = [];
  const problems: PlacedProblem[] = [];
  /** `first` and `other` are the versions of the lines. */
  let reading: 'plain' | 'first' | 'other' = 'plain';
  for (const statement of statements) {
    const [found = ''] = mark.exec(statement.node.text) ?? [];
    if (found.startsWith('<') && reading === 'plain') {
      reading = 'first';
      problems.push(
        problem(
          'unknown-statement',
          placeIn({ file, statement }, { start: 0, end: found.length }),
          'Two versions of these lines stand here, as a merge left them: keep one, and take out the lines that begin with <<<<<<<, ======= and >>>>>>>.',
        ),
      );
    } else if ((found.startsWith('=') || found.startsWith('|')) && reading !== 'plain') reading = 'other';
    else if (found.startsWith('>') && reading !== 'plain') reading = 'plain';
    else if (reading !== 'other') kept.push(statement);
  }
  return { statements: kept, problems };
}
