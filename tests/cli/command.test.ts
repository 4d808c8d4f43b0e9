import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Ajv from 'ajv';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import answersSchema from '../../server/cli/answers.schema.json';
import checkSchema from '../../server/cli/check.schema.json';
import { runCommand } from './surroundings.ts';

const good = `system "Shed" 12 V
battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ
fuse F1 5 A, blade, 32 V
load LAMP 12 W
run W1 1.5 mm² red, 0.1 m, B1:+ to F1:in
run W2 1.5 mm² red, 1.2 m, F1:out to LAMP:+
run W3 1.5 mm² black, 1.3 m, LAMP:- to B1:-
`;
// 1 mm² clipped at 30 °C carries 15.5 A (BS 7671 table 4D1A, method C): a 30 A fuse does not protect it.
const bad = good.replace('5 A', '30 A').replaceAll('1.5 mm²', '1 mm²');

const samples = [
  'first-lamp',
  'spokewagon',
  'spokewagon-as-found',
  'orchard-cabin',
  'towpath-kiosk',
  'ridge-hut',
  'tuning-van',
  'whetstone',
].map((name) => `samples/${name}.amps`);
const ajv = new Ajv({ allErrors: true, allowUnionTypes: true });
const validCheck = ajv.compile(checkSchema);
const validAnswers = ajv.compile(answersSchema);

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'ampscribe-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

function write(name: string, content: string | Uint8Array): string {
  const path = join(folder, name);
  mkdirSync(join(path, '..'), { recursive: true });
  writeFileSync(path, content);
  return path;
}

describe('check', () => {
  it('ends with 0 and says so when nothing is found', async () => {
    write('shed.amps', good);
    const ran = await runCommand(['check', 'shed.amps'], { here: folder });
    expect(ran).toMatchObject({ code: 0, err: '' });
    expect(ran.out).toBe('1 file checked: nothing found.\n');
  });

  it('tells a finding as serious as it is asked to, or not at all', async () => {
    write('shed.amps', bad);
    const told = async (...severity: string[]) =>
      runCommand(['check', 'shed.amps', ...severity.flatMap((one) => ['--severity', one])], { here: folder });
    expect(await told('cable-too-small=advice')).toMatchObject({
      code: 0,
      out: expect.stringContaining('  advice  cable'),
    });
    expect(await told('cable-too-small=off')).toMatchObject({ code: 0, out: '1 file checked: nothing found.\n' });
    expect(await told('drop-over-limit=off', 'cable-too-small=warning')).toMatchObject({ code: 0 });
    expect(await told('cable-too-small=loud')).toMatchObject({ code: 2, err: expect.stringContaining('off, advice') });
    expect(await told('cable-too-smal=off')).toMatchObject({ code: 2, err: expect.stringContaining('no finding') });
  });

  it('shows the place, the message, the source line and the words underlined', async () => {
    write('shed.amps', bad);
    const ran = await runCommand(['check', 'shed.amps'], { here: folder });
    expect(ran.code).toBe(1);
    expect(ran.out).toContain('shed.amps:5:8  error  cable-too-small');
    const lines = ran.out.split('\n');
    const source = lines.findIndex((line) => line.includes('5 │ run W1 1 mm² red'));
    expect(lines[source + 1]).toMatch(/^ +│ {8}▔{5}$/);
    expect(ran.out).not.toContain('\u001b[');
  });

  it('uses colours only where it is told that the terminal wants them', async () => {
    write('shed.amps', bad);
    const ran = await runCommand(['check', 'shed.amps'], { here: folder, colours: true });
    expect(ran.out).toContain('\u001b[31merror\u001b[39m');
  });

  it('reads standard input for -', async () => {
    const ran = await runCommand(['check', '-'], { here: folder, input: bad });
    expect(ran.code).toBe(1);
    expect(ran.out).toContain('-:5:8  error  cable-too-small');
  });

  it('checks every spec below a folder and leaves hidden and package folders out', async () => {
    write('a/shed.amps', good);
    write('node_modules/x/other.amps', bad);
    write('.hidden/other.amps', bad);
    const ran = await runCommand(['check', '.'], { here: folder });
    expect(ran).toMatchObject({ code: 0 });
    expect(ran.out).toContain('1 file checked');
  });

  it('ends with 2 and a plain sentence when a file cannot be read, and still checks the others', async () => {
    write('shed.amps', bad);
    write('latin.amps', new Uint8Array([0x72, 0xb2, 0x0a]));
    const ran = await runCommand(['check', 'none.amps', 'latin.amps', 'shed.amps'], { here: folder });
    expect(ran.code).toBe(2);
    expect(ran.err).toContain('There is no file or folder');
    expect(ran.err).toContain('is not UTF-8 text');
    expect(ran.out).toContain('cable-too-small');
    expect(ran.err + ran.out).not.toMatch(/at .*\.ts:\d+/);
  });

  it('counts the characters of a line without the byte order mark of its file, in a used one too', async () => {
    write('stock.amps', '\uFEFFstock thin  cable 4 mm\n');
    write('shed.amps', '\uFEFFuse "stock.amps"\n');
    const { out } = await runCommand(['check', 'stock.amps', 'shed.amps'], { here: folder });
    expect(out).not.toContain('\uFEFF');
    expect(out).toContain('stock.amps:1:19');
    expect(out).toContain('shed.amps:1:5');
  });

  it('fails on warnings only when asked', async () => {
    const text = `${good}allow drop-over-limit on W2 "nothing to accept here"\n`;
    const mild = await runCommand(['check', '-'], { here: folder, input: text });
    const strict = await runCommand(['check', '-', '--fail-on', 'warning'], { here: folder, input: text });
    expect(mild.out).toContain('warning  allow-unused');
    expect([mild.code, strict.code]).toEqual([0, 1]);
  });

  it.each(samples)('prints JSON of %s that its schema accepts', async (sample) => {
    const ran = await runCommand(['check', sample, '--format', 'json']);
    const json: unknown = JSON.parse(ran.out);
    expect(validCheck(json), JSON.stringify(validCheck.errors)).toBe(true);
  });

  it('has the figures, the related place and a fix in the JSON', async () => {
    const ran = await runCommand(['check', '-', '--format', 'json'], { here: folder, input: bad });
    const finding = JSON.parse(ran.out).files[0].findings.find(
      (f: { slug: string; subject: string }) => f.slug === 'cable-too-small' && f.subject === 'W1',
    );
    expect(finding.figures.capacityAmps).toBeCloseTo(15.5, 1);
    expect(finding.range).toEqual({ start: { line: 4, character: 7 }, end: { line: 4, character: 12 } });
    expect(finding.related.some((r: { range: { start: { line: number } } }) => r.range.start.line === 2)).toBe(true);
    expect(finding.fixes[0].edits[0].range.start.line).toBe(4);
  });
});

describe('check of files together', () => {
  it('judges a file that another uses as a piece of that spec', async () => {
    const piece = 'load LAMP 12 W\nbusbar NEG 50 A\nrun W3 1.5 mm² black, 1.3 m, LAMP:- to NEG\n';
    write('lamps.amps', piece);
    const rest = good.replace('load LAMP 12 W\n', '').replace('W3', 'W4').replace('LAMP:- to', 'NEG to');
    write('whole.amps', rest.replace('battery', 'use "lamps.amps"\nbattery'));
    const alone = await runCommand(['check', 'lamps.amps', '--fail-on', 'warning'], { here: folder });
    expect(alone.out).toContain('terminal-unconnected');
    const together = await runCommand(['check', 'lamps.amps', 'whole.amps', '--fail-on', 'warning'], { here: folder });
    expect(together.out).toBe('2 files checked: nothing found.\n');
  });
});

describe('check of a line without end', () => {
  it('shows only what stands around the words', async () => {
    const ran = await runCommand(['check', '-'], {
      here: folder,
      input: `load LAMP 12 W, ${'wibble '.repeat(20_000)}\n`,
    });
    expect(ran.out).toContain(' …');
    for (const line of ran.out.split('\n')) expect(line.length).toBeLessThan(600);
  });
});

describe('format', () => {
  const untidy = good.replace('5 A, blade', '5A,blade');

  it('rewrites the file and says so', async () => {
    const path = write('shed.amps', untidy);
    const ran = await runCommand(['format', 'shed.amps'], { here: folder });
    expect(ran.code).toBe(0);
    expect(readFileSync(path, 'utf8')).toContain('fuse F1     5 A, blade, 32 V');
  });

  it('keeps the byte order mark of a file', async () => {
    const path = write('shed.amps', '\uFEFFload L 5W\n');
    await runCommand(['format', 'shed.amps'], { here: folder });
    expect(readFileSync(path, 'utf8')).toBe('\uFEFFload L  5 W\n');
  });

  it('takes a carriage return alone for the line end that it is to an editor', async () => {
    const path = write('shed.amps', 'load L 5W\rload M 5,5 W\r');
    expect((await runCommand(['check', 'shed.amps'], { here: folder })).out).toContain('shed.amps:2:8  error  decimal');
    await runCommand(['format', 'shed.amps'], { here: folder });
    expect(readFileSync(path, 'utf8')).toBe('load L  5 W\nload M  5,5 W\n');
  });

  it('with --check names the file, leaves it alone and ends with 1', async () => {
    const path = write('shed.amps', untidy);
    const ran = await runCommand(['format', '--check', 'shed.amps'], { here: folder });
    expect(ran).toMatchObject({ code: 1, out: 'shed.amps is not tidy.\n' });
    expect(readFileSync(path, 'utf8')).toBe(untidy);
  });

  it('prints the tidy text of standard input', async () => {
    const ran = await runCommand(['format', '-'], { here: folder, input: untidy });
    expect(ran.out).toContain('fuse F1     5 A, blade, 32 V');
  });
});

describe('answers', () => {
  it.each(samples)('prints JSON of %s that its schema accepts', async (sample) => {
    const ran = await runCommand(['answers', sample, '--format', 'json']);
    expect(ran.code).toBe(0);
    const json: unknown = JSON.parse(ran.out);
    expect(validAnswers(json), JSON.stringify(validAnswers.errors)).toBe(true);
  });

  it('shows the lamp of a spec without cases in the implied ones', async () => {
    const ran = await runCommand(['answers', '-'], { here: folder, input: good });
    expect(ran.out).toContain('Case loads-only');
    // 12 W at 12 V is 1 A, a little more for the drop on the way.
    expect(ran.out).toMatch(/LAMP +\d+\.\d\d V +1\.0\d A +12\.0 W/);
  });

  it('shows short circuits once, after the cases: at terminals, through devices, and what cables bear', async () => {
    const ran = await runCommand(['answers', '-'], { here: folder, input: good });
    const [, after = '', ...more] = ran.out.split('Short circuits\n');
    expect(more).toEqual([]);
    // 12.6 V over 15 mΩ; at the fuse 0.1 m of 13.3 mΩ/m more.
    expect(after).toMatch(/^ +B1:\+ +840 A +\d+ A$/m);
    expect(after).toMatch(/^ +F1 +772 A +1000 A +ISO 8820-3, blade, 32 V \(.+\) +\d+ A +surely +\d[\d.]* ms$/m);
    // (115 × 1.5 mm²)² by IEC 60364-4-43 table 43A; six times 5 A for 0.1 s.
    expect(after).toMatch(/^ +W2 +red +F1 +\d+ A +surely +\d[\d.]* ms +90 A²s +29756 A²s$/m);
    expect(ran.out.indexOf('Short circuits')).toBeGreaterThan(ran.out.lastIndexOf('\nCase '));
  });

  it('names the cases there are when asked for one there is not', async () => {
    const ran = await runCommand(['answers', '-', '--case', 'dusk'], { here: folder, input: good });
    expect(ran.code).toBe(2);
    expect(ran.err).toContain('it has loads-only, sun-only, sun-and-loads, charging');
  });
});

describe('usage', () => {
  it.each([
    [[], 'Say what to do'],
    [['chekc', 'x'], 'no command "chekc"'],
    [['check'], 'Say which file'],
    [['check', 'x', '--format', 'xml'], '--format takes text or json, not "xml"'],
    [['check', 'x', '--fail-on', 'advice'], '--fail-on takes error or warning'],
    [['check', 'x', '--case', 'y'], 'does not take --case'],
    [['answers', 'x', 'y'], 'takes one file'],
    [['serve'], '--stdio'],
    [['check', '--nonsense'], '--nonsense'],
  ])('%j: ends with 2 and says what is wrong', async (args, says) => {
    const ran = await runCommand(args, { here: folder });
    expect(ran.code).toBe(2);
    expect(ran.err).toContain(says);
    expect(ran.err).toContain('ampscribe --help');
  });

  it('prints the version and the help', async () => {
    expect((await runCommand(['--version'])).out).toBe('9.9.9\n');
    expect((await runCommand(['--help'])).out).toContain('ampscribe check FILE|FOLDER…');
  });

  it('hands over to the server', async () => {
    expect(await runCommand(['serve', '--stdio'])).toMatchObject({ code: undefined, served: true });
  });
});
