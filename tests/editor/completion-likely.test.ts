/** The order of what is offered, by what the electrics make likely; and names that are new, declared as they are written. */
import { describe, expect, it } from 'vitest';
import { codeActions, fillBlankKind } from '../../server/editor/code-actions.ts';
import { changesWithEachLetter, completion } from '../../server/editor/completion.ts';
import { analyseText } from '../analysed.ts';
import { complete, inShed, labels, shed, take } from './completing.ts';

/** A lamp of 5 A at 12 V, 6 m away. */
const lamp = (lines: string) => `system "Hut" 12 V
battery B1  agm, 12 V, 60 Ah
busbar NEG  50 A
load LAMP   5 A
${lines}`;
const sound = {
  fuse: 'fuse F1  10 A, blade',
  feed: 'run W1  2.5 mm² red, 0.1 m, B1:+ to F1:in',
  out: 'run W2  2.5 mm² red, 3 m, F1:out to LAMP:+',
  back: 'run W3  2.5 mm² black, 3 m, NEG to LAMP:-\nrun W4  2.5 mm² black, 0.2 m, NEG to B1:-',
};
const hut = (other: Partial<typeof sound>) => lamp(`${Object.values({ ...sound, ...other }).join('\n')}\n`);

describe('ends', () => {
  const first = (marked: string, count: number) => labels(complete(hut({ back: marked }))).slice(0, count);

  it('of the pole that the other end has come first, the other pole last', () => {
    const free = 'load FAN  5 W\nisolator Q1  2 poles, 10 A dc\n';
    expect(first(`${free}run W9  1.5 mm², 2 m, F1:out to |`, 3)).toEqual(['FAN:+', 'Q1:1', 'Q1:2']);
    const back = first(`${free}run W9  1.5 mm², 2 m, B1:- to |`, 9);
    expect(back.slice(0, 2)).toEqual(['LAMP:-', 'FAN:-']);
    expect(back.indexOf('NEG')).toBeGreaterThan(1);
    expect(labels(complete(hut({ back: `${free}run W9  1.5 mm², 2 m, B1:- to |` }))).indexOf('FAN:+')).toBeGreaterThan(
      back.indexOf('NEG'),
    );
  });

  it('of a core that has no end yet go by its colour, core by core', () => {
    const two = (core: string) =>
      first(`load FAN  5 W\nrun W9  2 x 1.5 mm², 2 m\n    red    F1:out to FAN:+\n    ${core} |`, 4);
    expect(two('black').slice(0, 3)).toEqual(['FAN:-', 'B1:-', 'LAMP:-']);
    expect(two('brown')[0]).toBe('NEG');
  });

  it('of a part go free ones first, then by pole', () => {
    const at = (colour: string) => labels(inShed(`load NEW 5 W\nrun W9  1.5 mm² ${colour}, 2 m, NEW:|`));
    expect([at('red'), at('black')]).toEqual([
      ['NEW:+', 'NEW:-'],
      ['NEW:-', 'NEW:+'],
    ]);
  });
});

describe('very many ends', () => {
  const van = (n: number) => `load V${n}-LAMP  9 W\n`;
  const vans = Array.from({ length: 400 }, (_, n) => van(n)).join('');
  const typed = (letters: string) => complete(`${vans}run V7-W1  1.5 mm² red, 1 m, ${letters}|\n`);

  it('are narrowed by what is typed, those named like the run first', () => {
    const open = typed('');
    expect(open.items.filter(({ label }) => label.includes('LAMP')).length).toBeLessThan(1000);
    expect(labels(open).find((label) => label.includes('LAMP'))).toBe('V7-LAMP:+');
    expect(labels(typed('V399-L'))).toContain('V399-LAMP:+');
    expect(labels(typed('v12lamp')).every((label) => !label.includes('LAMP') || /1.*2/u.test(label))).toBe(true);
    expect(changesWithEachLetter(analyseText(open.text), open.offset)).toBe(true);
  });
});

describe('ratings and sizes', () => {
  it('begin with the next standard fuse above the load, and say why', () => {
    const [item] = complete(hut({ fuse: 'fuse F1  |' })).items;
    expect([item?.label, item?.detail]).toEqual(['5 A', 'The next standard rating above the 5 A of its load.']);
    expect(labels(complete(hut({ fuse: 'fuse F1  |' }).replace('load LAMP   5 A', 'load LAMP   5.1 A')))[0]).toBe(
      '7.5 A',
    );
    expect(labels(complete(hut({ fuse: 'fuse F1  bolt-in, |' })))[0]).toBe('20 A');
  });

  it('of a way of a fusebox go by what it feeds', () => {
    const box = hut({
      fuse: 'fusebox F1  2 ways\n    way 2 fuse |',
      feed: 'run W1  6 mm² red, 0.1 m, B1:+ to F1:in',
      out: 'load FAN  13 A\nrun W2  2.5 mm² red, 1 m, F1:1 to LAMP:+\nrun W5  4 mm² red, 1 m, F1:2 to FAN:+\nrun W6  4 mm² black, 1 m, NEG to FAN:-',
    });
    expect(labels(complete(box))[0]).toBe('15 A');
    expect(labels(complete(box.replace('way 2', 'way 1')))[0]).toBe('5 A');
  });

  it('of a switch go by its circuit', () => {
    const out =
      'switch S1  1 pole, |\nrun W2  2.5 mm² red, 1 m, F1:out to S1:1\nrun W5  2.5 mm² red, 1 m, S1:2 to LAMP:+';
    expect(labels(complete(hut({ out })))[0]).toBe('10 A');
  });

  it('are offered before several cores of a size', () => {
    const items = labels(complete(hut({ out: 'run W2  |red, 3 m, F1:out to LAMP:+' })));
    const [first] = items.filter((label) => /mm²|AWG| x$/u.test(label));
    expect(first).toBe(items.find((label) => /^\d.* mm²$/u.test(label)));
    expect(items).toContain('2 x');
  });

  it('begin with the size that the tool would choose', () => {
    const blank = hut({ out: 'run W2  ? mm² red, 3 m, F1:out to LAMP:+', back: sound.back });
    const analysis = analyseText(blank);
    const [chosen] = analysis.answers.chosen;
    const here = blank.indexOf('?');
    const [action] = codeActions(
      analysis,
      { start: here, end: here },
      { pageUri: (slug) => slug, relatedInformation: true, tags: true, only: [fillBlankKind] },
    );
    expect(action?.title).toContain(`Write ${chosen?.text}`);
    const sizes = (out: string) =>
      complete(hut({ out })).items.filter(({ label }) => /mm²|AWG/u.test(label) && !label.startsWith('?'));
    const unsaid = sizes('run W2  |red, 3 m, F1:out to LAMP:+')[0];
    expect([unsaid?.label, unsaid?.detail]).toEqual([
      chosen?.text,
      'The smallest standard size that carries the 10 A of its circuit where it lies.',
    ]);
    const asked = sizes('run W2  ? mm² red, |3 m, F1:out to LAMP:+');
    expect(asked).toEqual([]);
  });

  it('keep their order while a line is typed, by the figures before it, which are not told then', () => {
    const whole = analyseText(hut({}));
    const typed = analyseText(hut({ fuse: 'fuse F1  ' }));
    const unfinished = { ...typed, isWorkedOut: false, answers: { ...typed.answers, contacts: new Map() } };
    const offset = String(typed.text).indexOf('fuse F1  ') + 9;
    const offers = (before: typeof whole | undefined) =>
      completion(unfinished, offset, { snippets: true, markdown: true, before }).slice(0, 1);
    expect(offers(undefined)[0]?.label).toBe('1 A');
    expect(offers(whole)).toMatchObject([{ label: '5 A', detail: 'Rated current of a fuse.' }]);
  });
});

describe('what is accepted', () => {
  const spec = hut({}).replace(/^(run W3 .*), [\d.]+ m,/mu, '$1, 60 m,');
  const first = (line: string, isWorkedOut: boolean) => {
    const whole = analyseText(spec);
    const [slug] = whole.findings.flatMap((one) => (one.subject === 'W3' ? [one.slug] : []));
    if (slug === undefined) throw new Error('nothing is found on W3');
    const typed = analyseText(`${spec}${line.replace('SLUG', slug)}`);
    const shown = isWorkedOut ? typed : { ...typed, isWorkedOut, findings: [], accepted: [] };
    const options = { snippets: true, markdown: true, before: whole };
    const items = completion(shown, String(typed.text).length, options);
    return [slug, items[0]?.label];
  };

  it.each([true, false])('is offered first as it was found, worked out already: %s', (isWorkedOut) => {
    const [slug, offered] = first('allow ', isWorkedOut);
    expect(offered).toBe(slug);
    expect(first('allow SLUG on ', isWorkedOut)[1]).toBe('W3');
  });
});

describe('a name that is new', () => {
  const taken = (marked: string, label: string) => {
    const at = inShed(marked);
    const item = at.items.find((one) => one.label === label);
    expect(item, label).toBeDefined();
    return item === undefined ? '' : take(at, item).slice(shed.length);
  };

  it.each([
    ['# here\nrun W3  6 mm² red, 4 m, POS to Q3|', 'Q3:1', '# here\n', 'isolator Q3  1 pole, ? A dc'],
    ['run W3  6 mm² red, 4 m, POS to Q|', 'Q2:1', '', 'isolator Q2  1 pole, ? A dc'],
    ['run W3  6 mm² red, 4 m, F9|', 'F9:out', '', 'fuse F9  ? A'],
    ['run W3  6 mm² red, 4 m, POS to WASHER|', 'WASHER:+', '', 'load WASHER  ? W'],
    ['run W3  6 mm² black, 4 m, POS to WASHER|', 'WASHER:-', '', 'load WASHER  ? W'],
    ['run W3  6 mm² red, 4 m, POS to J|', 'J1', '', 'splice J1'],
  ])('%s takes %s', (marked, label, notes, declared) => {
    const written = marked.slice(notes.length).replace(/\S*\|$/u, label);
    expect(taken(marked, label)).toBe(`${declared}\n${notes}${written}`);
    // What is written so is read without a word of complaint about the name.
    expect(analyseText(shed + taken(marked, label)).findings.map(({ slug }) => slug)).not.toContain('unknown-name');
  });

  it.each([
    ['run W3 = cord|, 4 m, POS to F2:in', 'cord', 'stock cord  cable ? mm²'],
    ['run W3 6 mm², along CELLAR|, 4 m, POS to F2:in', 'CELLAR', 'place CELLAR  ? °C'],
    ['fuse F3 5 A, in TUB|', 'TUB', 'enclosure TUB'],
    ['run W3 6 mm², od 9 mm, 4 m, POS to F2:in, enters BOX by E9|', 'E9', 'entry E9  in BOX, gland M16'],
  ])('%s is declared', (marked, label, declared) => {
    expect(taken(marked, label)).toBe(`${declared}\n${marked.replace('|', '')}`);
  });

  it('is not offered where one that is there begins so, nor where it is taken, nor for what is no name', () => {
    const offered = (marked: string) =>
      inShed(marked).items.filter(({ additionalTextEdits }) => additionalTextEdits !== undefined);
    for (const marked of [
      'run W3 = th|',
      'run W3 6 mm² red, 4 m, POS to LAM|',
      'run W3 6 mm² red, 4 m, POS to F1|',
      'run W3 6 mm² red, 4 m, POS to 4|',
      'run W3 6 mm² red, 4 m, POS to |',
      'fuse F3 = slow|',
    ])
      expect([marked, offered(marked).map(({ label }) => label)]).toEqual([marked, []]);
  });

  it('makes the editor ask again with every letter, and only there', () => {
    const asksAgain = (marked: string) => {
      const { text, offset } = inShed(marked);
      return changesWithEachLetter(analyseText(text), offset);
    };
    expect(asksAgain('run W3 6 mm² red, 4 m, POS to Q|')).toBe(true);
    expect(asksAgain('run W3 6 mm² red, 4 m, |')).toBe(true);
    expect(asksAgain('fuse F3 5 A, bl|')).toBe(false);
    expect(asksAgain('case x LA|')).toBe(false);
  });
});
