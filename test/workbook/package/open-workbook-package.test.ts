import { gzipSync } from 'node:zlib';
import fc from 'fast-check';
import { strToU8, type Zippable, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { InputError } from '../../../src/errors.js';
import { openWorkbookPackage, parseRangeRef, sheetRange } from '../../../src/workbook/package/index.js';
import { messageOf, sheetXml, tinyParts, tinyWorkbook, valuesOf, zip } from './tiny-workbook.js';

const good = zip(tinyParts(sheetXml('<row r="1"><c r="A1"><v>1</v></c></row>')));

function open(bytes: Uint8Array) {
  return openWorkbookPackage(bytes, 'home.xlsx');
}

function changed(change: (file: Buffer) => void): Uint8Array {
  const file = Buffer.from(good);
  change(file);
  return file;
}

/** Offset of the n-th directory record. */
function directoryRecord(file: Buffer, index: number): number {
  let at = file.readUInt32LE(file.length - 6);
  for (let skip = 0; skip < index; skip++) at += 46 + file.readUInt16LE(at + 28) + file.readUInt16LE(at + 30);
  return at;
}

describe('a file that is not a workbook is refused in one sentence', () => {
  const without = (part: string) => {
    const parts = tinyParts(sheetXml(''));
    delete parts[part];
    return zip(parts);
  };
  it.each<[string, Uint8Array, string]>([
    ['empty', new Uint8Array(), 'the file is empty. Choose a workbook'],
    ['words', strToU8('Dear reader,\nthis is not a workbook.'), 'this is a text file, not a workbook'],
    ['a table of words', strToU8('date,kWh\n2024-01-01,1\n'), 'this is a text file'],
    ['a binary', Uint8Array.from({ length: 500 }, (_, index) => (index * 7) % 256), 'this is not a workbook'],
    ['another packing', gzipSync('x'), 'this is not a workbook'],
    ['cut short', good.subarray(0, good.length - 40), 'its end is missing'],
    ['cut very short', good.subarray(0, 10), 'its end is missing'],
    ['a start with a foreign middle', changed((file) => file.fill(0, 30, 200)), 'damaged'],
    [
      'protected by a password',
      Uint8Array.of(0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1),
      'protected by a password',
    ],
    [
      'an encrypted part',
      changed((file) => file.writeUInt16LE(1, directoryRecord(file, 0) + 8)),
      'protected by a password',
    ],
    ['a zip of something else', zip({ 'readme.txt': 'hello' }), 'this is not an .xlsx workbook'],
    ['no workbook part', without('xl/workbook.xml'), 'this is not an .xlsx workbook'],
    ['no relationships', without('_rels/.rels'), 'this is not an .xlsx workbook'],
    [
      'OpenDocument',
      zip({ mimetype: 'application/vnd.oasis.opendocument.spreadsheet', 'content.xml': '<a/>' }),
      'this is an OpenDocument file',
    ],
    [
      'a text document',
      zip({ ...tinyParts(''), 'xl/workbook.xml': '<w:document xmlns:w="w"/>' }),
      'this is not an .xlsx workbook',
    ],
    [
      'the binary form',
      zip({
        '_rels/.rels': (tinyParts('')['_rels/.rels'] ?? '').replace('workbook.xml', 'workbook.bin'),
        'xl/workbook.bin': 'x',
      }),
      'this is not an .xlsx workbook',
    ],
    [
      'a document type',
      zip({ ...tinyParts(''), 'xl/workbook.xml': '<!DOCTYPE a [<!ENTITY b "c">]><workbook/>' }),
      'document type',
    ],
  ])('%s', (_, bytes, expected) => {
    const message = messageOf(() => open(bytes));
    expect(message).toContain('InputError: home.xlsx: ');
    expect(message).toContain(expected);
  });

  it('an empty zip', () => {
    expect(messageOf(() => open(zipSync({})))).toContain('home.xlsx: this is not an .xlsx workbook');
  });
});

it('OpenDocument of whatever size is told for what it is', () => {
  const parts = { mimetype: 'application/vnd.oasis.opendocument.spreadsheet', 'content.xml': '<a/>' };
  const files = Object.entries(parts).map(([name, text]): [string, Zippable[string]] => [
    name,
    [strToU8(text), { level: name === 'mimetype' ? 0 : 6 }],
  ]);
  const file = Buffer.from(zipSync(Object.fromEntries(files)));
  file.writeUInt32LE(4_000_000_000, directoryRecord(file, 1) + 24);
  expect(messageOf(() => open(file))).toBe(
    'InputError: home.xlsx: this is an OpenDocument file. Open it in a spreadsheet program and save it as .xlsx.',
  );
});

describe('a file that unpacks to gigabytes', () => {
  const sheet = 'xl/worksheets/sheet1.xml';
  const names = Object.keys(tinyParts(''));

  it('is refused by what it claims, before anything is unpacked', () => {
    const claims = changed((file) =>
      file.writeUInt32LE(4_000_000_000, directoryRecord(file, names.indexOf(sheet)) + 24),
    );
    expect(messageOf(() => open(claims))).toContain('it unpacks to more than 600 MB');
  });

  it('is refused when a claim is more than its bytes could give', () => {
    const claims = changed((file) =>
      file.writeUInt32LE(500_000_000, directoryRecord(file, names.indexOf(sheet)) + 24),
    );
    expect(messageOf(() => open(claims))).toContain(
      `part '${sheet}' claims a size that its bytes can't give`,
    );
  });

  it('is refused when it holds more than it claims, and no more than the claim is unpacked', () => {
    const bomb = Buffer.from(zip({ ...tinyParts(''), [sheet]: new Uint8Array(50_000_000) }));
    bomb.writeUInt32LE(100_000, directoryRecord(bomb, names.indexOf(sheet)) + 24);
    const before = process.memoryUsage().arrayBuffers;
    expect(messageOf(() => open(bomb).readSheet('Data'))).toContain(`part '${sheet}' can't be unpacked`);
    expect(process.memoryUsage().arrayBuffers - before).toBeLessThan(10_000_000);
  });

  it('is refused when many parts share the same bytes', () => {
    const overlap = changed((file) => {
      const first = file.readUInt32LE(directoryRecord(file, 0) + 42);
      file.writeUInt32LE(first, directoryRecord(file, 1) + 42);
    });
    expect(messageOf(() => open(overlap))).toContain('two of its parts overlap');
  });

  it('is refused when the limit is set lower', () => {
    const small = { limits: { totalBytes: 500, entries: 100 } };
    expect(messageOf(() => openWorkbookPackage(good, 'home.xlsx', small))).toContain('unpacks to more than');
  });
});

describe('a damaged part', () => {
  it('is told by its checksum', () => {
    const flipped = changed((file) => file.writeUInt32LE(12345, directoryRecord(file, 4) + 16));
    expect(messageOf(() => open(flipped).readSheet('Data'))).toContain(
      "part 'xl/worksheets/sheet1.xml' can't be unpacked",
    );
  });

  const stored = (part: string, wrong: boolean): Uint8Array => {
    const parts = {
      ...tinyParts(sheetXml('<row r="1"><c r="A1"><v>1</v></c></row>')),
      'xl/theme.xml': '<theme/>',
    };
    const files = Object.entries(parts).map(([name, text]): [string, Zippable[string]] => [
      name,
      [strToU8(text), { level: name === part ? 0 : 6 }],
    ]);
    const file = Buffer.from(zipSync(Object.fromEntries(files)));
    const at = directoryRecord(file, Object.keys(parts).indexOf(part)) + 16;
    if (wrong) file.writeUInt32LE(file.readUInt32LE(at) ^ 1, at);
    return file;
  };

  it('is told by its checksum where it is not packed, too', () => {
    const sheet = 'xl/worksheets/sheet1.xml';
    expect(valuesOf(open(stored(sheet, false)).readSheet('Data'))).toEqual({ A1: 1 });
    expect(messageOf(() => open(stored(sheet, true)).readSheet('Data'))).toContain(
      `the checksum of part '${sheet}' is wrong`,
    );
  });

  it('that nobody reads is not passed on', () => {
    const theme = open(stored('xl/theme.xml', true));
    expect(valuesOf(theme.readSheet('Data'))).toEqual({ A1: 1 });
    const message = "the checksum of part 'xl/theme.xml' is wrong";
    expect(messageOf(() => theme.toBytes())).toContain(message);
    expect(messageOf(() => theme.checkParts())).toContain(message);
    expect(open(stored('xl/theme.xml', false)).toBytes().length).toBeGreaterThan(0);
  });

  it('twice under one name is refused', () => {
    const parts = { ...tinyParts(sheetXml('')), 'XL/Workbook.xml': '<workbook/>' };
    expect(messageOf(() => open(zip(parts)))).toContain("it holds part 'XL/Workbook.xml' twice");
  });

  it('whatever byte is wrong: a message or the right cells, never anything else', () => {
    fc.assert(
      fc.property(fc.nat(good.length - 1), fc.integer({ min: 1, max: 255 }), (at, flip) => {
        try {
          const workbook = open(changed((file) => file.writeUInt8((file[at] as number) ^ flip, at)));
          for (const sheet of workbook.sheetNames())
            expect(valuesOf(workbook.readSheet(sheet))).toEqual({ A1: 1 });
        } catch (error) {
          expect(error).toBeInstanceOf(InputError);
        }
      }),
      { seed: 4, numRuns: 2000 },
    );
  });

  it('wherever it is cut', () => {
    for (let length = 0; length < good.length; length++) {
      expect(() => open(good.subarray(0, length))).toThrow(InputError);
    }
  });
});

describe('a workbook whose parts have other names', () => {
  it('is found by its relationships: absolute, relative, strict, prefixed, with backslashes', () => {
    const strict = 'http://purl.oclc.org/ooxml/officeDocument/relationships';
    const workbook = open(
      zip({
        '_rels/.rels': `<r:Relationships xmlns:r="http://schemas.openxmlformats.org/package/2006/relationships"><r:Relationship Id="x" Target="/deep/book.xml" Type="${strict}/officeDocument"/></r:Relationships>`,
        'deep\\book.xml': `<x:workbook xmlns:x="http://purl.oclc.org/ooxml/spreadsheetml/main" xmlns:rel="${strict}"><x:sheets><x:sheet name="One &amp; two" sheetId="7" rel:id="b"/><x:sheet name="Chart" sheetId="8" rel:id="c"/><x:sheet name="Last" sheetId="9" rel:id="a"/></x:sheets><x:definedNames><x:definedName name="Rate">'One &amp; two'!$A$1</x:definedName><x:definedName name="rate" localSheetId="2">Last!$B$2</x:definedName></x:definedNames></x:workbook>`,
        'deep/_rels/book.xml.rels': `<Relationships><Relationship Id="a" Type="${strict}/worksheet" Target="../other/My%20sheet.xml"/><Relationship Id="b" Type="${strict}/worksheet" Target="./one.xml"/><Relationship Id="c" Type="${strict}/chartsheet" Target="100%.xml"/><Relationship Id="d" Type="${strict}/externalLink" Target="https://example.org/100%" TargetMode="External"/></Relationships>`,
        'other/my sheet.xml': sheetXml('<row r="1"><c r="A1"><v>2</v></c></row>'),
        'deep/one.xml': sheetXml('<row r="1"><c r="A1"><v>1</v></c></row>'),
      }),
    );
    expect(workbook.sheetNames()).toEqual(['One & two', 'Last']);
    expect(valuesOf(workbook.readSheet('one & TWO'))).toEqual({ A1: 1 });
    expect(valuesOf(workbook.readSheet('Last'))).toEqual({ A1: 2 });
    expect(workbook.definedName('RATE')).toBe("'One & two'!$A$1");
    expect(workbook.definedNames()).toEqual([
      { name: 'Rate', text: "'One & two'!$A$1", sheet: undefined },
      { name: 'rate', text: 'Last!$B$2', sheet: 'Last' },
    ]);
  });

  it('finds the cells that a name stands for', () => {
    expect(sheetRange("'One & ''two'''!$A$1:C$9")).toEqual({
      sheet: "One & 'two'",
      range: { firstRow: 1, firstColumn: 1, lastRow: 9, lastColumn: 3 },
    });
    expect(sheetRange('Data!$B$2')?.range).toEqual({
      firstRow: 2,
      firstColumn: 2,
      lastRow: 2,
      lastColumn: 2,
    });
    for (const text of [
      '28.5',
      '#REF!',
      'Data!#REF!',
      'SUM(Data!A1)',
      '$A$1',
      'Data!A1,Data!B1',
      'Data!A:A',
    ]) {
      expect(sheetRange(text)).toBeUndefined();
    }
  });

  it('gives the values of a rectangle', () => {
    const workbook = tinyWorkbook(
      '<row r="1"><c r="A1"><v>1</v></c></row><row r="3"><c r="B3"><v>2</v></c><c r="D3"><v>9</v></c></row><row r="4"><c r="B4"><v>9</v></c></row>',
    );
    expect(workbook.readRange('Data', parseRangeRef('B2:C3'))).toEqual([
      [null, null],
      [2, null],
    ]);
  });

  it('says which sheets there are when one is missing', () => {
    expect(messageOf(() => open(good).readSheet('Readings'))).toBe(
      "InputError: home.xlsx: the workbook has no sheet 'Readings'. It has: Data. Give the sheet its name back, or start from a fresh workbook.",
    );
  });

  it('is not mistaken over a name that the objects of the language have', () => {
    expect(open(good).definedName('constructor')).toBeUndefined();
    expect(open(good).hasSheet('__proto__')).toBe(false);
  });
});

describe('the container', () => {
  const edit = { inputs: [{ column: 1, firstRow: 1, values: [2] }] };

  it('is handed back as it came when nothing changed', () => {
    const workbook = open(good);
    expect(
      workbook.editSheet('Data', { inputs: [{ column: 1, firstRow: 1, values: [1] }] }).changedCells,
    ).toBe(0);
    expect(workbook.toBytes()).toBe(good);
  });

  it('is the same bytes for the same edits', () => {
    const [one, two] = [open(good), open(good)];
    one.editSheet('Data', edit);
    two.editSheet('Data', edit);
    expect(Buffer.compare(one.toBytes(), two.toBytes())).toBe(0);
  });

  it('takes a new version of a part, and says whether it is one', () => {
    const workbook = open(good);
    expect(
      workbook.replacePart('[Content_Types].xml', strToU8(tinyParts('')['[Content_Types].xml'] ?? '')),
    ).toBe(false);
    expect(workbook.toBytes()).toBe(good);
    expect(workbook.replacePart('[Content_Types].xml', strToU8('<Types/>'))).toBe(true);
    expect(open(workbook.toBytes()).readPart('[content_types].xml')?.toString()).toBe('<Types/>');
    expect(() => workbook.replacePart('xl/none.xml', new Uint8Array())).toThrow(RangeError);
  });

  it('may have sizes after the data, 64-bit sizes and stored parts, as some writers make it', () => {
    const streamed = streamedZip(tinyParts(sheetXml('<row r="1"><c r="A1"><v>1</v></c></row>')));
    const workbook = open(streamed);
    expect(valuesOf(workbook.readSheet('Data'))).toEqual({ A1: 1 });
    workbook.editSheet('Data', edit);
    const saved = Buffer.from(workbook.toBytes());
    expect(valuesOf(open(saved).readSheet('Data'))).toEqual({ A1: 2 });
    // Sizes stand in front of the data now, and the flag that says otherwise is gone.
    expect(saved.readUInt16LE(directoryRecord(saved, 0) + 8) & 8).toBe(0);
  });

  it('may hold only an empty sheet', () => {
    expect(valuesOf(tinyWorkbook('').readSheet('Data'))).toEqual({});
  });
});

/** A zip as a program writes it that does not know sizes beforehand: bit 3, a descriptor after the data, 64-bit extras. */
function streamedZip(parts: Record<string, string>): Uint8Array {
  const plain = Buffer.from(
    zipSync(Object.fromEntries(Object.entries(parts).map(([name, text]) => [name, strToU8(text)])), {
      level: 0,
    }),
  );
  const local: Buffer[] = [];
  const directory: Buffer[] = [];
  let at = plain.readUInt32LE(plain.length - 6);
  let offset = 0;
  for (let index = 0; index < Object.keys(parts).length; index++) {
    const nameLength = plain.readUInt16LE(at + 28);
    const size = plain.readUInt32LE(at + 24);
    const crc = plain.readUInt32LE(at + 16);
    const start = plain.readUInt32LE(at + 42);
    const name = plain.subarray(at + 46, at + 46 + nameLength);
    const header = Buffer.from(plain.subarray(start, start + 30 + nameLength));
    header.writeUInt16LE(8, 6);
    header.fill(0, 14, 26);
    const data = plain.subarray(start + 30 + nameLength, start + 30 + nameLength + size);
    const descriptor = Buffer.alloc(24);
    descriptor.writeUInt32LE(0x08074b50, 0);
    descriptor.writeUInt32LE(crc, 4);
    descriptor.writeBigUInt64LE(BigInt(size), 8);
    descriptor.writeBigUInt64LE(BigInt(size), 16);
    local.push(header, data, descriptor);
    // Only what is marked as missing stands in the extra field: here packed size and offset.
    const record = Buffer.alloc(46 + nameLength + 20);
    plain.copy(record, 0, at, at + 46);
    record.writeUInt16LE(8, 8);
    record.writeUInt32LE(0xffffffff, 20);
    record.writeUInt16LE(20, 30);
    record.writeUInt32LE(0xffffffff, 42);
    name.copy(record, 46);
    record.writeUInt16LE(1, 46 + nameLength);
    record.writeUInt16LE(16, 48 + nameLength);
    record.writeBigUInt64LE(BigInt(size), 50 + nameLength);
    record.writeBigUInt64LE(BigInt(offset), 58 + nameLength);
    directory.push(record);
    offset += header.length + data.length + descriptor.length;
    at += 46 + nameLength + plain.readUInt16LE(at + 30) + plain.readUInt16LE(at + 32);
  }
  const end64 = Buffer.alloc(56);
  end64.writeUInt32LE(0x06064b50, 0);
  end64.writeBigUInt64LE(BigInt(directory.length), 32);
  end64.writeBigUInt64LE(BigInt(offset), 48);
  const locator = Buffer.alloc(20);
  locator.writeUInt32LE(0x07064b50, 0);
  locator.writeBigUInt64LE(BigInt(offset + directory.reduce((sum, { length }) => sum + length, 0)), 8);
  const end = Buffer.alloc(22, 0xff);
  end.writeUInt32LE(0x06054b50, 0);
  end.writeUInt16LE(0, 20);
  return Buffer.concat([...local, ...directory, end64, locator, end]);
}
