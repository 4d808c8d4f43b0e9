/** What a van of 300 lines and six cases costs from its text: once, and again after every key. */
import { AnalysisCache, analyse } from '../../server/analysis.ts';
import { measure, told } from './measure.ts';
import { edits, sourceOf, van, vanUri } from './vans.ts';

/** The van with words of it put otherwise, another way every time. */
function retitled(words: string, put: (count: number) => string): () => string {
  let count = 0;
  return () => {
    count += 1;
    return van.replace(words, put(count));
  };
}

export function wholeVan(): void {
  console.log('A whole van from text: 300 lines, 6 cases');
  console.log(
    told(
      '  everything, nothing known before',
      measure(() => analyse(vanUri, sourceOf(van), new AnalysisCache())),
    ),
  );
  const after = (what: string, next: () => string, seconds: number, wanted?: number) => {
    const cache = new AnalysisCache();
    const again = measure(() => analyse(vanUri, sourceOf(next()), cache), seconds);
    console.log(told(`  everything again after ${what} changed`, again, wanted));
  };
  after('one length', edits(van), 3, 10);
  after(
    'a note',
    retitled('# ---- Sleeping end ----', (count) => `# ---- ${count} ----`),
    1,
  );
  after(
    'the title of a cable',
    retitled('run W58', (count) => `run W58 "${count}"`),
    1,
  );
  after(
    'the title of a load',
    retitled('load READING', (count) => `load READING "${count}"`),
    1,
  );
}
