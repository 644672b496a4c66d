import { createPrivateKey, X509Certificate } from 'node:crypto';
import { chmodSync, existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { generate } from 'selfsigned';
import { InputError } from '../../errors.js';
import { whyNotSaved } from '../../workbook/package/index.js';

export interface LocalCertificate {
  /** PEM. */
  certificate: string;
  /** PEM; readable by its owner alone. */
  key: string;
  /** File of the certificate, for the system's list of trusted ones. */
  certificatePath: string;
  validTo: Date;
}

const DAYS_VALID = 365;
const RENEWED_DAYS_BEFORE = 7;
const DAY_MS = 86_400_000;

/**
 * The certificate for https on this computer, made once and renewed before it ends. It is valid for localhost alone
 * and can sign nothing, so that trusting it opens no other door.
 *
 * @param folder where certificate and key are kept
 * @param now for its dates
 * @returns certificate and key
 * @throws InputError when those that are kept can't be used, or new ones can't be written
 * @example (await localCertificate('out/certificate')).certificatePath // 'out/certificate/localhost.crt'
 */
export async function localCertificate(folder: string, now = new Date()): Promise<LocalCertificate> {
  const certificatePath = join(folder, 'localhost.crt');
  const keyPath = join(folder, 'localhost.key');
  if (existsSync(certificatePath) && existsSync(keyPath)) {
    const { certificate, key, validTo } = keptCertificate(certificatePath, keyPath);
    if (validTo.getTime() - now.getTime() > RENEWED_DAYS_BEFORE * DAY_MS) {
      return { certificate, key, certificatePath, validTo };
    }
  }
  const notAfterDate = new Date(now.getTime() + DAYS_VALID * DAY_MS);
  const made = await generate([{ name: 'commonName', value: 'localhost' }], {
    keySize: 2048,
    algorithm: 'sha256',
    notBeforeDate: new Date(now.getTime() - DAY_MS),
    notAfterDate,
    extensions: [
      { name: 'basicConstraints', cA: false, critical: true },
      { name: 'keyUsage', digitalSignature: true, keyEncipherment: true, critical: true },
      { name: 'extKeyUsage', serverAuth: true },
      {
        name: 'subjectAltName',
        altNames: [
          { type: 2, value: 'localhost' },
          { type: 7, ip: '127.0.0.1' },
          { type: 7, ip: '::1' },
        ],
      },
    ],
  });
  try {
    mkdirSync(folder, { recursive: true, mode: 0o700 });
    writeFileSync(keyPath, made.private, { mode: 0o600 });
    chmodSync(keyPath, 0o600);
    writeFileSync(certificatePath, made.cert);
  } catch (error) {
    throw whyNotSaved(error, folder);
  }
  return { certificate: made.cert, key: made.private, certificatePath, validTo: notAfterDate };
}

/** A damaged pair is not replaced without a word: the computer may trust it, and would not trust another. */
function keptCertificate(
  certificatePath: string,
  keyPath: string,
): Pick<LocalCertificate, 'certificate' | 'key' | 'validTo'> {
  try {
    const certificate = readFileSync(certificatePath, 'utf8');
    const key = readFileSync(keyPath, 'utf8');
    const x509 = new X509Certificate(certificate);
    if (x509.checkPrivateKey(createPrivateKey(key)))
      return { certificate, key, validTo: new Date(x509.validTo) };
  } catch {
    // Told below: whatever is wrong with them, they are of no use.
  }
  throw new InputError(
    'this certificate, or its key beside it, is damaged or may not be read',
    'Delete both: the next start makes new ones, to be trusted anew.',
    { file: certificatePath },
  );
}
