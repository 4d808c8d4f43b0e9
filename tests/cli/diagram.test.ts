import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { revisionOf } from '../../server/cli/revision.ts';
import { parsed, wordsOf } from '../reports/cards/drawing.ts';
import { runCommand } from './surroundings.ts';

const shed = `system "Shed" 12 V
battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ
fuse F1 5 A, blade, 32 V
isolator Q1 "Lamp isolator" 2 poles, 10 A dc, 24 V
load LAMP 12 W
run W1 1.5 mm² red, 0.1 m, B1:+ to F1:in
run W2 1.5 mm² red, 1.2 m, F1:out to Q1:1
run W3 1.5 mm² red, 1.2 m, Q1:2 to LAMP:+
run W4 1.5 mm² black, 1.3 m, LAMP:- to B1:-
case evening LAMP on
`;

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'ampscribe-'));
  writeFileSync(join(folder, 'shed.amps'), shed);
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const diagram = (...args: string[]) => runCommand(['diagram', ...args], { here: folder, revision: () => '3f2a1c9' });
const bytesOf = (name: string) => readFileSync(join(folder, name));

describe('diagram', () => {
  it('prints the drawing as SVG', async () => {
    const ran = await diagram('shed.amps');
    expect(ran).toMatchObject({ code: 0, err: '' });
    const words = wordsOf(parsed(ran.out));
    expect(words).toEqual(expect.arrayContaining(['B1', 'F1', 'Q1', 'LAMP', 'Lamp isolator']));
    expect(ran.out).not.toContain('page 1');
  });

  it('draws the cards too when asked', async () => {
    const words = wordsOf(parsed((await diagram('shed.amps', '--cards')).out));
    expect(words).toEqual(expect.arrayContaining(['Dead test, cores off: what beeps', 'to F1:out', 'empty']));
  });

  it('writes each sort to a file, and says so', async () => {
    for (const format of ['svg', 'png', 'pdf'] as const) {
      const ran = await diagram('shed.amps', '--format', format, '--out', `shed.${format}`);
      expect(ran, format).toMatchObject({ code: 0, out: '' });
      expect(ran.err).toBe(format === 'pdf' ? 'shed.pdf written: 1 page.\n' : `shed.${format} written.\n`);
    }
    expect(bytesOf('shed.svg').toString()).toContain('<svg');
    expect(bytesOf('shed.png').subarray(1, 4).toString()).toBe('PNG');
    expect(bytesOf('shed.pdf').subarray(0, 5).toString()).toBe('%PDF-');
  });

  it('puts it on paper with its title block when asked, and always as PDF', async () => {
    const words = wordsOf(parsed((await diagram('shed.amps', '--paper', 'letter', '--case', 'evening')).out));
    expect(words).toEqual(
      expect.arrayContaining([
        'Shed',
        'shed.amps',
        'revision 3f2a1c9',
        '2026-11-26',
        'page 1 of 1',
        'wiring diagram, case evening',
      ]),
    );
    await diagram('shed.amps', '--format', 'pdf', '--cards', '--out', 'all.pdf');
    expect(bytesOf('all.pdf').toString('latin1')).toContain('/Count 2');
  });

  it('numbers several pages that are files of their own', async () => {
    const ran = await diagram('shed.amps', '--paper', 'a4', '--cards', '--out', 'sheets.svg');
    expect(ran.err).toBe('sheets-1.svg written.\nsheets-2.svg written.\n');
    expect(wordsOf(parsed(bytesOf('sheets-2.svg').toString()))).toContain('page 2 of 2');
    const printed = await diagram('shed.amps', '--paper', 'a4', '--cards');
    expect(printed).toMatchObject({ code: 2, out: '' });
    expect(printed.err).toContain('2 pages, each a file of its own: say --out FILE');
  });

  it('draws some parts alone', async () => {
    const some = async (...only: string[]) => wordsOf(parsed((await diagram('shed.amps', ...only)).out));
    expect(await some('--only', 'LAMP')).not.toContain('F1');
    expect(await some('--only', 'LAMP', '--only', 'F1')).toContain('F1');
    expect(await some('--only', 'LAMP,F1')).toContain('LAMP');
  });

  it('reads standard input', async () => {
    const ran = await runCommand(['diagram', '-', '--paper', 'a4'], { here: folder, input: shed });
    expect(wordsOf(parsed(ran.out))).toEqual(expect.arrayContaining(['standard input', 'no revision']));
  });

  it('draws what can be read of a spec with errors, and tells of them', async () => {
    writeFileSync(join(folder, 'bad.amps'), shed.replace('12 W', '12 watts'));
    const ran = await diagram('bad.amps', '--paper', 'a4', '--out', 'bad.svg');
    expect(ran).toMatchObject({ code: 0, out: '' });
    expect(ran.err).toMatch(
      /^bad-1.svg written\.\nbad-2.svg written\.\nThe spec has \d+ errors?: see ampscribe check bad.amps\n$/,
    );
    expect(bytesOf('bad-1.svg').toString()).toMatch(/checked: \d+ errors?,/);
    expect(wordsOf(parsed(bytesOf('bad-2.svg').toString()))).toContain('what was found');
  });

  it('says which letters a picture cannot show', async () => {
    writeFileSync(join(folder, 'far.amps'), shed.replaceAll('LAMP', '灯').replace('Lamp isolator', 'Ωφ Щ 漢'));
    const ran = await diagram('far.amps', '--format', 'png', '--out', 'far.png');
    expect(ran).toMatchObject({ code: 0 });
    expect(ran.err).toContain('The typeface has no ');
    expect(ran.err).toMatch(/漢/);
    expect(ran.err).toMatch(/灯/);
    expect(ran.err).not.toMatch(/[ΩφЩ]/);
    expect((await diagram('far.amps', '--out', 'far.svg')).err).not.toContain('typeface');
    expect((await diagram('shed.amps', '--format', 'png', '--out', 'shed.png')).err).not.toContain('typeface');
  });

  it.each([
    [['nowhere.amps'], 'There is no file or folder'],
    [['shed.amps', '--case', 'noon'], 'There is no case "noon" in shed.amps: it has evening.'],
    [['shed.amps', '--only', 'Q2'], 'There is no part "Q2" in shed.amps: did you mean Q1?'],
    [['shed.amps', '--only', 'COMPRESSOR'], 'There is no part "COMPRESSOR" in shed.amps.'],
    [['shed.amps', '--only', 'W2'], '"W2" is a cable: name a part that it leads to'],
    [['empty.amps'], 'There is nothing to draw in empty.amps'],
    [['shed.amps', '--format', 'jpg'], '--format takes svg or png or pdf, not "jpg".'],
    [['shed.amps', '--paper', 'a5'], '--paper takes a4 or a3 or letter, not "a5".'],
    [['shed.amps', '--format', 'pdf'], 'PDF is written to a file: say --out FILE.pdf'],
    [['shed.amps', 'shed.amps'], 'takes one file'],
    [['shed.amps', '--check'], 'does not take --check'],
    [['shed.amps', '--out', 'nowhere/shed.svg'], 'nowhere/shed.svg could not be written: there is no such folder.'],
    [['shed.amps', '--out', '.'], '. could not be written: it is a folder.'],
  ])('says what is wrong with %j', async (args, message) => {
    writeFileSync(join(folder, 'empty.amps'), '# nothing yet\n');
    const ran = await diagram(...args);
    expect(ran).toMatchObject({ code: 2, out: '' });
    expect(ran.err).toContain(message);
    expect(ran.err).not.toContain('Something went wrong');
  });
});

describe('the revision', () => {
  const git = (...args: string[]) =>
    execFileSync('git', ['-c', 'user.name=T', '-c', 'user.email=t@example.invalid', ...args], {
      cwd: folder,
      stdio: 'ignore',
    });

  it('is that of the repository, with a mark when the file was changed since', () => {
    const file = join(folder, 'shed.amps');
    // Outside any repository, whatever stands above the folder for temporary files.
    expect(revisionOf(file)).toBeUndefined();
    git('init');
    expect(revisionOf(file)).toBeUndefined();
    git('add', '.');
    git('commit', '-m', 'a shed');
    expect(revisionOf(file)).toMatch(/^[0-9a-f]{4,40}$/);
    mkdirSync(join(folder, 'other'));
    writeFileSync(join(folder, 'other', 'note.txt'), 'no matter');
    expect(revisionOf(file)).not.toContain('changes');
    writeFileSync(file, `${shed}# a remark\n`);
    expect(revisionOf(file)).toMatch(/^[0-9a-f]{4,40} \+ changes$/);
    expect(revisionOf(join(folder, 'gone', 'x.amps'))).toBeUndefined();
  });
});

describe('the built command', () => {
  it('draws with what stands beside it, and loads none of that for anything else', () => {
    const cli = resolve('dist/cli.js');
    for (const format of ['png', 'pdf'])
      execFileSync(process.execPath, [cli, 'diagram', 'shed.amps', '--format', format, '--out', `out.${format}`], {
        cwd: folder,
        stdio: 'pipe',
      });
    expect(bytesOf('out.png').length).toBeGreaterThan(2000);
    expect(bytesOf('out.pdf').subarray(0, 5).toString()).toBe('%PDF-');
    for (const file of ['paper.js', 'elk.js', 'DejaVuSans.ttf', 'DejaVuSans-Bold.ttf', 'resvg.wasm'])
      expect(existsSync(resolve('dist', file)), file).toBe(true);
    expect(readFileSync(resolve('dist/command.js'), 'utf8')).not.toContain('FontFile2');
    // Whoever starts the server reads no more than this first.
    expect(readFileSync(cli, 'utf8').length).toBeLessThan(10_000);
  });
});
