/** What a van of 300 lines and six cases costs from its text: once, and again after every key. */
import { AnalysisCache, analyse } from '../../server/analysis.ts';
import { measure, told } from './measure.ts';
import { edits, sourceOf, van, vanUri } from './vans.ts';

export function wholeVan(): void {
  console.log('A whole van from text: 300 lines, 6 cases');
  console.log(
    told(
      '  everything, nothing known before',
      measure(() => analyse(vanUri, sourceOf(van), new AnalysisCache())),
    ),
  );
  const cache = new AnalysisCache();
  const again = () => analyse(vanUri, sourceOf(van), cache);
  console.log(told('  everything again, nothing changed', measure(again)));
  const next = edits(van);
  console.log(
    told(
      '  everything again after one length changed',
      measure(() => analyse(vanUri, sourceOf(next()), cache), 3),
      10,
    ),
  );
}
