import { X509Certificate } from 'node:crypto';
import { chmodSync, existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { generate } from 'selfsigned';

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
 */
export async function localCertificate(folder: string, now = new Date()): Promise<LocalCertificate> {
  const certificatePath = join(folder, 'localhost.crt');
  const keyPath = join(folder, 'localhost.key');
  if (existsSync(certificatePath) && existsSync(keyPath)) {
    const certificate = readFileSync(certificatePath, 'utf8');
    const validTo = new Date(new X509Certificate(certificate).validTo);
    if (validTo.getTime() - now.getTime() > RENEWED_DAYS_BEFORE * DAY_MS) {
      return { certificate, key: readFileSync(keyPath, 'utf8'), certificatePath, validTo };
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
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  writeFileSync(keyPath, made.private, { mode: 0o600 });
  chmodSync(keyPath, 0o600);
  writeFileSync(certificatePath, made.cert);
  return { certificate: made.cert, key: made.private, certificatePath, validTo: notAfterDate };
}
