import { describe, expect, it } from 'vitest';
import { TextInBlocks } from '../../../grammar/text-in-blocks.ts';
import type { Analysis } from '../../../server/analysis.ts';
import { fixAll } from '../../../server/editor/actions/fix-all.ts';
import { codeActions } from '../../../server/editor/code-actions.ts';
import type { Finding } from '../../../server/rules/rule.ts';
import { analyseText } from '../../analysed.ts';
import { offering, optionsFor } from './offering.ts';

const kind = 'source.fixAll';

describe('mending everything that is safe to mend', () => {
  it('mends again what shows only once the first is mended', () => {
    // The unit must be right before the comma that is missing behind it can be seen.
    const found = offering('|load LAMP  9 watts 4 h/day\n', kind);
    const mended = found.chosen('Mend all');
    expect(mended).toBe('load LAMP  9 W, 4 h/day\n');
    expect(offering(`|${mended}`, kind).actions).toEqual([]);
  });

  const accepting = `system "Shed" 12 V
battery B1  agm, 12 V, 60 Ah
fuse F1     15 A, blade, 32 V, breaks 2 kA
load HEATER 100 W
run WA  2.5 mm² red, 0.1 m, B1:+ to F1:in
run FEED  2.5 mm² red, 9 m, F1:out to HEATER:+
run RETURN  2.5 mm² black, 9 m, HEATER:- to B1:-
allow drop-over-limit on RETURN "measured 10.9 V at full load, 3 May, Ann"
`;

  it.each([
    ['its own subject', 'on RETURN', 'on RETRUN'],
    ['a kind of part', 'battery', 'batery'],
    ['a unit', '100 W', '100 watts'],
  ])('mends %s and keeps the allow that rests on it', (_, right, wrong) => {
    expect(analyseText(accepting).findings).toEqual([]);
    const found = offering(`|${accepting.replace(right, wrong)}`, kind);
    expect(found.chosen('Mend all')).toBe(accepting);
  });

  it('never takes out an allow, whose reason is somebody’s own words', () => {
    const unused = 'load LAMP  9 W\nallow drop-over-limit on LAMP "long ago"  # ask Mo\nload FAN  9 W\n';
    expect(offering(`|${unused}`, kind).actions).toEqual([]);
    const taken = offering(unused.replace('drop-', '|drop-'), 'quickfix').chosen('Take this allow out');
    expect(taken).toBe('load LAMP  9 W\n# ask Mo\n\nload FAN  9 W\n');
  });

  it('is not offered for a mend that is written already', () => {
    const analysis = analyseText('load LAMP  9 W\nload FAN\n');
    const place = { uri: analysis.uri, span: { start: 11, end: 12 } };
    const writing = (newText: string): Analysis => {
      const fixes = [{ title: `Write ${newText}`, safe: true, edits: [{ place, newText }] }];
      return { ...analysis, findings: [{ ...(analysis.findings[0] as Finding), place, fixes }] };
    };
    const offered = (newText: string) =>
      codeActions(writing(newText), place.span, { ...optionsFor(), only: ['quickfix'] }).map(({ title }) => title);
    expect(offered('8')).toContain('Write 8');
    expect(offered('9')).not.toContain('Write 9');
    expect(fixAll(writing('9'), () => writing('9'))).toEqual([]);
  });

  it('changes nothing where mending finds no end', () => {
    const analysis = analyseText('load LAMP  9 W\n');
    const turning = (text: string): Analysis => {
      const place = { uri: analysis.uri, span: { start: 11, end: 12 } };
      const newText = text.charAt(11) === '9' ? '8' : '9';
      const finding: Finding = {
        ...(analysis.findings[0] as Finding),
        fixes: [{ title: 'Turn it', safe: true, edits: [{ place, newText }] }],
      };
      return { ...analysis, text: TextInBlocks.of(text), findings: [finding] };
    };
    const [action] = fixAll(turning(String(analysis.text)), turning);
    expect(action?.title).toBe('Mend all that needs no decision (1)');
    expect(typeof action?.edits === 'function' ? action.edits() : undefined).toEqual([]);
  });
});
