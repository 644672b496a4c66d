import { generateKeyPairSync, X509Certificate } from 'node:crypto';
import { mkdtempSync, readFileSync, rmSync, statSync, truncateSync, writeFileSync } from 'node:fs';
import { request } from 'node:https';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createContext, runInContext } from 'node:vm';
import { XMLParser, XMLValidator } from 'fast-xml-parser';
import { unzlibSync } from 'fflate';
import { beforeAll, describe, expect, it } from 'vitest';
import { excelAddonFiles, MANIFEST_FILE } from '../../src/addons/excel/excel-addon-files.js';
import { excelFunctionId, excelMetadata } from '../../src/addons/excel/functions-metadata.js';
import { iconPng } from '../../src/addons/excel/icon-png.js';
import { localCertificate } from '../../src/addons/excel/local-certificate.js';
import { excelManifest, ICON_SIZES, LOCAL_URL } from '../../src/addons/excel/manifest.js';
import { serveFiles } from '../../src/addons/excel/serve-files.js';
import { describedFunctions } from '../../src/functions/index.js';
import { expectCells } from './agree.js';
import { readMetadata } from './read-excel-metadata.js';

type Cell = number | string | boolean | null | object;
type Registered = (...args: unknown[]) => Cell | Cell[][];

class StandInError extends Error {
  constructor(
    readonly code: string,
    message?: string,
  ) {
    super(message);
  }
}

let files: ReadonlyMap<string, string | Uint8Array>;
const registered = new Map<string, Registered>();

beforeAll(async () => {
  files = await excelAddonFiles(LOCAL_URL);
  // Excel's registration call and nothing else: no Node, no browser.
  const context = createContext({
    CustomFunctions: {
      associate: (id: string, call: Registered) => registered.set(id, call),
      Error: StandInError,
      ErrorCode: { invalidValue: '#VALUE!' },
    },
  });
  runInContext(files.get('functions.js') as string, context);
});

describe('the script of the Excel add-in', () => {
  it('registers every function of the metadata, once, with as many parameters', () => {
    const { functions } = JSON.parse(files.get('functions.json') as string) as ReturnType<
      typeof excelMetadata
    >;
    expect(functions).toHaveLength(describedFunctions.length);
    expect(new Set(functions.map(({ id }) => id)).size).toBe(functions.length);
    expect([...registered.keys()].sort()).toEqual(functions.map(({ id }) => id).sort());
    for (const { id, parameters } of functions) {
      expect(id).toMatch(/^[A-Z][A-Z0-9]*$/);
      expect(registered.get(id)).toHaveLength(parameters.length);
    }
  });

  it.each(describedFunctions.map((described) => ({ cellName: described.cellName, described })))(
    'gives the example of $cellName, with the invocation that Excel adds',
    ({ described: { cellName, arguments: all, example } }) => {
      const args = all.map((_, index) => example.arguments[index] ?? undefined);
      const result = registered.get(excelFunctionId(cellName))!(...args, { address: 'Sheet1!A1' });
      expectCells(result, example.result);
    },
  );

  it.each(['UNIT_RATE', 'UNIT_RATES', 'TARIFF_ENERGY_COST', 'TARIFF_STANDING_CHARGE'])(
    'gives the example of %s where blank cells come as 0',
    (cellName) => {
      const { example } = describedFunctions.find((described) => described.cellName === cellName)!;
      const zeros = (value: unknown): unknown => (Array.isArray(value) ? value.map(zeros) : (value ?? 0));
      expectCells(
        registered.get(excelFunctionId(cellName))!(...example.arguments.map(zeros)),
        example.result,
      );
    },
  );

  it('throws Excel’s own error with a message that names the argument', () => {
    const addVat = registered.get('ADDVAT')!;
    for (const [args, message] of [
      [['x', 0.05], 'amount is "x"'],
      [[null, 0.05], 'amount is blank'],
      [[100], 'vatShare is blank'],
      [[{ type: 'Error', basicType: 'Error', basicValue: '#DIV/0!' }, 0.05], 'amount is "#DIV/0!"'],
    ] as const) {
      expect(() => addVat(...args)).toThrow(expect.objectContaining({ code: '#VALUE!' }));
      expect(() => addVat(...args)).toThrow(message);
    }
  });

  it('takes a formatted number for its value', () => {
    expect(registered.get('ADDVAT')!({ type: 'FormattedNumber', basicValue: 100 }, 0.05)).toBe(105);
  });
});

describe('the metadata of the Excel add-in', () => {
  it('is what the published generator reads out of the script', () => {
    const { functions, errors } = readMetadata(files.get('functions.js') as string);
    expect(errors).toEqual([]);
    expect(excelMetadata(describedFunctions).functions).toEqual(functions);
  });

  it('says help, unit and columns of every argument', () => {
    for (const [index, { parameters }] of excelMetadata(describedFunctions).functions.entries()) {
      describedFunctions[index]!.arguments.forEach(({ description, unit, columns = [] }, i) => {
        expect(parameters[i]!.description).toContain(description);
        if (unit !== 'none') expect(parameters[i]!.description).toContain(unit);
        for (const { name } of columns) expect(parameters[i]!.description).toContain(name);
      });
    }
  });
});

describe('the manifest of the Excel add-in', () => {
  const parse = (xml: string) =>
    new XMLParser({ ignoreAttributes: false, attributeNamePrefix: '@', preserveOrder: false }).parse(xml)
      .OfficeApp;

  it('is well-formed, its elements in the order of the published reference', () => {
    const xml = files.get(MANIFEST_FILE) as string;
    expect(XMLValidator.validate(xml)).toBe(true);
    const app = parse(xml);
    // Office add-ins, manifest reference: a wrong order is refused.
    expect(Object.keys(app).filter((key) => !key.startsWith('@'))).toEqual([
      'Id',
      'Version',
      'ProviderName',
      'DefaultLocale',
      'DisplayName',
      'Description',
      'IconUrl',
      'HighResolutionIconUrl',
      'SupportUrl',
      'Hosts',
      'Requirements',
      'DefaultSettings',
      'Permissions',
      'VersionOverrides',
    ]);
    expect(app.Id).toMatch(/^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/);
    expect(app.Version).toMatch(/^\d+(\.\d+){3}$/);
    expect(app.ProviderName.length).toBeLessThanOrEqual(125);
    expect(app.DisplayName['@DefaultValue'].length).toBeLessThanOrEqual(125);
    expect(app.Description['@DefaultValue'].length).toBeLessThanOrEqual(250);
  });

  it('points at files of the folder, and every reference at a resource', () => {
    const xml = files.get(MANIFEST_FILE) as string;
    const urls = [...xml.matchAll(/DefaultValue="(https:[^"]*)"/g)].map(([, url]) => url!);
    expect(urls.length).toBeGreaterThan(6);
    for (const url of urls) expect(files.has(url.slice(LOCAL_URL.length + 1)), url).toBe(true);
    const ids = [...xml.matchAll(/<bt:\w+ id="([^"]*)"/g)].map(([, id]) => id!);
    for (const [, resid] of xml.matchAll(/resid="([^"]*)"/g)) {
      expect(ids).toContain(resid);
      expect(resid!.length).toBeLessThanOrEqual(32);
    }
    const point = parse(xml).VersionOverrides.Hosts.Host.AllFormFactors.ExtensionPoint;
    expect(Object.keys(point).filter((key) => !key.startsWith('@'))).toEqual([
      'Script',
      'Page',
      'Metadata',
      'Namespace',
    ]);
  });

  it('takes any https address and no other', () => {
    expect(excelManifest('https://example.org/tariff')).toContain(
      '"https://example.org/tariff/functions.js"',
    );
    for (const wrong of ['http://example.org', 'https://example.org/', 'example.org', 'https://a"b.org']) {
      expect(() => excelManifest(wrong), wrong).toThrow(RangeError);
    }
  });
});

describe('the icons of the Excel add-in', () => {
  it.each(ICON_SIZES)('of %i pixels is a picture of that size', (size) => {
    const bytes = iconPng(size);
    const view = new DataView(bytes.buffer);
    expect([view.getUint32(16), view.getUint32(20)]).toEqual([size, size]);
    const length = view.getUint32(33);
    expect(unzlibSync(bytes.subarray(41, 41 + length))).toHaveLength(size * (size * 4 + 1));
  });
});

describe('serving the Excel add-in to this computer', () => {
  it('gives the files over https with a certificate for localhost alone, and nothing else', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'certificate-'));
    try {
      const certificate = await localCertificate(folder);
      const x509 = new X509Certificate(certificate.certificate);
      expect(x509.subjectAltName).toContain('DNS:localhost');
      expect(x509.ca).toBe(false);
      expect(statSync(join(folder, 'localhost.key')).mode & 0o077).toBe(0);
      expect((await localCertificate(folder)).certificate).toBe(certificate.certificate);
      const inAYear = new Date(certificate.validTo.getTime() - 1000);
      expect((await localCertificate(folder, inAYear)).certificate).not.toBe(certificate.certificate);

      const server = await serveFiles(files, certificate, 0);
      try {
        const { port, address } = server.address() as AddressInfo;
        expect(address).toBe('127.0.0.1');
        const get = (path: string, method = 'GET') => fetchLocal(port, path, method, certificate.certificate);
        const script = await get('/functions.js?x=1');
        expect(script).toMatchObject({ status: 200, type: 'text/javascript; charset=utf-8' });
        expect(script.body).toBe(files.get('functions.js'));
        for (const path of ['/', '/../package.json', '/%2e%2e/package.json', '/localhost.key']) {
          expect((await get(path)).status, path).toBe(404);
        }
        expect((await get('/functions.js', 'POST')).status).toBe(405);
        for (const path of [
          '//',
          '//x:y',
          '/\\\\',
          '/%',
          '///functions.js',
          'https://localhost/',
          '*',
          ':',
          '//[',
        ]) {
          expect((await get(path)).status, path).toBeOneOf([400, 404]);
        }
        expect((await get('/functions.js')).status).toBe(200);
        await expect(serveFiles(files, certificate, port)).rejects.toThrow(
          `port ${port} of this computer is taken. Another program uses it, maybe this very server, started before: end that one, then start again.`,
        );
      } finally {
        server.close();
        server.closeAllConnections();
      }
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  });
});

describe('a certificate that was kept', () => {
  it.each<[string, (folder: string) => void]>([
    ['is cut', (folder) => truncateSync(join(folder, 'localhost.crt'), 300)],
    ['is empty', (folder) => truncateSync(join(folder, 'localhost.crt'), 0)],
    ['has a key that is cut', (folder) => truncateSync(join(folder, 'localhost.key'), 300)],
    [
      'has another key',
      (folder) => {
        const { privateKey } = generateKeyPairSync('rsa', { modulusLength: 2048 });
        writeFileSync(
          join(folder, 'localhost.key'),
          privateKey.export({ type: 'pkcs8', format: 'pem' }) as string,
        );
      },
    ],
  ])('and %s is told, not replaced', async (_, damage) => {
    const folder = mkdtempSync(join(tmpdir(), 'certificate-'));
    try {
      await localCertificate(folder);
      damage(folder);
      const left = readFileSync(join(folder, 'localhost.crt'));
      const path = join(folder, 'localhost.crt');
      await expect(localCertificate(folder)).rejects.toThrow(
        `${path}: this certificate, or its key beside it, is damaged or may not be read. Delete both: the next start makes new ones, to be trusted anew.`,
      );
      expect(readFileSync(path)).toEqual(left);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  });
});

function fetchLocal(
  port: number,
  path: string,
  method: string,
  ca: string,
): Promise<{ status: number | undefined; type: string | undefined; body: string }> {
  return new Promise((resolve, reject) => {
    const sent = request(
      { host: '127.0.0.1', servername: 'localhost', port, path, method, ca },
      (response) => {
        let body = '';
        response.setEncoding('utf8').on('data', (text: string) => {
          body += text;
        });
        response.on('end', () =>
          resolve({ status: response.statusCode, type: response.headers['content-type'], body }),
        );
      },
    );
    sent.on('error', reject).end();
  });
}
