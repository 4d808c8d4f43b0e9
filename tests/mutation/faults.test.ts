/** The clean van with one deliberate fault put in: exactly the finding that it deserves, where it belongs. */
import { describe, expect, it } from 'vitest';
import { analyse } from '../../server/analysis.ts';
import type { Finding } from '../../server/rules/rule.ts';
import { specUri } from '../analysed.ts';
import { sampleFiles, sourceOf } from './checks.ts';

const van = sampleFiles['spokewagon.amps'] ?? '';

/** Each `was` stands once in the van. */
function changed(...changes: readonly (readonly [was: string, is: string])[]): string {
  return changes.reduce((text, [was, is]) => {
    const parts = text.split(was);
    if (parts.length !== 2) throw new Error(`“${was}” stands ${parts.length - 1} times`);
    return parts.join(is);
  }, van);
}

const analysed = (text: string) => analyse(specUri, sourceOf(text)).findings;

interface Fault {
  readonly fault: string;
  readonly changes: readonly (readonly [string, string])[];
  readonly slug: string;
  readonly subject: string | undefined;
  /** The words underlined. */
  readonly words: string;
  /** Words, figures and all, that the message must say. */
  readonly says: readonly string[];
}

const fault = (
  title: string,
  changes: readonly (readonly [string, string])[],
  slug: string,
  subject: string | undefined,
  words: string,
  ...says: string[]
): Fault => ({ fault: title, changes, slug, subject, words, says });

const faults: readonly Fault[] = [
  // Cables
  fault('a fuse rating doubled', [['way 1 fuse 5 A', 'way 1 fuse 10 A']], '?', undefined, '?'),
  fault(
    'the way of a flat cable fused at 30 A',
    [['way 6 fuse 10 A', 'way 6 fuse 30 A']],
    '?', undefined, '?',
  ),
  fault('a cable halved', [['run W40  = lead-10 red', 'run W40  6 mm² red, 105 °C']], '?', undefined, '?'),
  fault('the fuse of the fuse locker enlarged', [['F8 "Fuse locker feed"  50 A', 'F8 "Fuse locker feed"  100 A']], '?', undefined, '?'),
  fault('a cable led past the engine', [['run W49  = feed-6 red, 1.4 m, along GARAGE', 'run W49  1 mm² red, 1.4 m, along ENGINE, bunched with 6']], '?', undefined, '?'),
  fault('insulation below the table', [['run W49  = feed-6 red', 'run W49  6 mm² red, 60 °C']], '?', undefined, '?'),
  fault('a place hotter than the insulation', [['place LOFT    indoors, 50 °C', 'place LOFT    indoors, 72 °C']], '?', undefined, '?'),
  fault('a thin long cable', [['run W51  = flat-25, 4.8 m', 'run W51  2 x 1 mm², 12 m']], '?', undefined, '?'),
  fault('a roof cable too thin', [['run W9   = roof-cable red', 'run W9   1 mm² red, 70 °C, bunched with 4']], '?', undefined, '?'),
  // Switching
  fault('poles crossed', [['Q1:6 to PV-POS', 'Q1:8 to PV-POS'], ['Q1:8 to PV-NEG', 'Q1:6 to PV-NEG']], '?', undefined, '?'),
  fault('in on one pole, out on another', [['2.4 mm', '2.4 mm']].slice(1) as never, '?', undefined, '?'),
  fault('an isolator below its fuse', [['Q3 "Inverter isolator"       1 pole, 100 A dc', 'Q3 "Inverter isolator"       1 pole, 50 A dc']], '?', undefined, '?'),
  fault('a relay below its load', [['contact 60 A', 'contact 20 A']], '?', undefined, '?'),
  fault('a roof isolator too weak for the sun', [['4 poles, 25 A dc', '4 poles, 6 A dc']], '?', undefined, '?'),
  fault('a roof isolator with a.c. rating only', [['4 poles, 25 A dc, 150 V, category DC-PV2', '4 poles, 150 V']], '?', undefined, '?'),
  fault('bar on one side', [['switch S3 "Pump switch"     1 pole, 15 A dc, 24 V, at GARAGE', 'switch S3 "Pump switch"     2 poles, 15 A dc, 24 V, at GARAGE\nlink S3 1-3']], '?', undefined, '?'),
  fault('a weak lamp switch', [['S2 "Bench switch"    1 pole, 10 A dc', 'S2 "Bench switch"    1 pole, 3 A dc']], '?', undefined, '?'),
  // Protection
  fault('fuse below load', [['way 4 fuse 10 A', 'way 4 fuse 5 A']], '?', undefined, '?'),
  fault('main fuse far', [['run W11  = lead-35 red, 0.15 m', 'run W11  = lead-35 red, 3.5 m']], '?', undefined, '?'),
  fault('feed moved before the fuse', [['F7:out to K1:30', 'F7:in to K1:30'], ['POS to F7:in', 'POS to F7:out']], '?', undefined, '?'),
  fault('feed from the busbar', [['F7:out to K1:30', 'POS to K1:30'],], '?', undefined, '?'),
  fault('a heater from the battery', [['FB:7 to HEATER:+', 'B1:+ to HEATER:+']], '?', undefined, '?'),
  fault('a starter battery fuse bridged', [['B2:+ to F3:in', 'B2:+ to F3:out']], '?', undefined, '?'),
  fault('a weak panel beside', [['panel P1 and P2  = panel-120, at ROOF', 'panel P1  = panel-120, at ROOF\npanel P2  = panel-120, most series fuse 6 A, at ROOF']], '?', undefined, '?'),
  // Entries
  fault('gland removed', [['PV-POS to U1:pv+\n    enters ROOF-BOX by E3', 'PV-POS to U1:pv+\n    enters ROOF-BOX open']], '?', undefined, '?'),
  fault('entry removed', [['PV-POS to U1:pv+\n    enters ROOF-BOX by E3', 'PV-POS to U1:pv+']], '?', undefined, '?'),
  fault('entry unstated', [['PV-POS to U1:pv+\n    enters ROOF-BOX by E3', 'PV-POS to U1:pv+\n    enters ROOF-BOX']], '?', undefined, '?'),
  // Language
  fault('a core end gone', [['NEG2 to USB:-', 'NEG2 to USB:+']], '?', undefined, '?'),
  fault('name twice', [['load FRIDGE ', 'load FAN ']], '?', undefined, '?'),
  fault('unknown stock', [['run W53  = flat-4', 'run W53  = flat-5']], '?', undefined, '?'),
  fault('terminal there is not', [['FB:8 to S1:1', 'FB:9 to S1:1']], '?', undefined, '?'),
  fault('decimal comma', [['0.3 h/day', '0,3 h/day']], '?', undefined, '?'),
  fault('missing unit', [['way 7 fuse 15 A', 'way 7 fuse 15']], '?', undefined, '?'),
  fault('a run taken out', [['run W19  = feed-6 black, 1.2 m, along GARAGE, NEG to U1:bat-\n', '']], '?', undefined, '?'),
  fault('allow of nothing', [['# ---- Cases', 'allow drop-over-limit on W51 "fan may be slow"\n# ---- Cases']], '?', undefined, '?'),
];

describe('the van', () => {
  it('is clean', () => expect(analysed(van)).toEqual([]));
  it.each(faults)('$fault', ({ changes, fault }) => {
    const text = changed(...changes);
    console.log(fault + '\n' + analysed(text).map((f: Finding) => `   ${f.slug} ${f.subject} [${text.slice(f.place.span.start, f.place.span.end)}] ${f.severity}: ${f.message}`).join('\n'));
  });
});
