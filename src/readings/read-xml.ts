import { SaxesParser } from 'saxes';
import { InputError } from '../errors.js';

/** What is told of an XML document, element by element; names are without their prefixes. */
export interface XmlEvents {
  open: (name: string, attributes: Readonly<Record<string, string>>, line: number) => void;
  close: (name: string) => void;
  text: (text: string) => void;
}

/**
 * Reads an XML document from its beginning to its end. Prefixes are dropped, as any may stand for a name space. Documents that define
 * entities are refused: no measured data needs them, and they can unpack to anything.
 *
 * @param xml text of the document
 * @param file name for messages, and the part of the file where it has several
 * @param events told in the order of the document
 * @throws InputError naming the line where the document is not well-formed, as where a download broke off, or declares a type
 * @example readXml('<a><x:b>1</x:b></a>', 'a.xml', events)
 */
export function readXml(xml: string, file: string, events: XmlEvents): void {
  const parser = new SaxesParser({ xmlns: false });
  const place = (): { file: string; line: number } => ({ file, line: parser.line });
  parser.on('doctype', () => {
    throw new InputError(
      'the XML document declares a document type, which can define what its words stand for',
      'Export it again without one.',
      place(),
    );
  });
  parser.on('error', (error) => {
    const what = error.message.replace(/^\d+:\d+: /, '').replace(/\.$/, '');
    throw new InputError(
      `the XML document is cut or damaged (${what})`,
      'Download or save the file again.',
      place(),
    );
  });
  parser.on('opentag', ({ name, attributes }) => {
    const bare: Record<string, string> = {};
    for (const [key, value] of Object.entries(attributes)) bare[local(key)] = value;
    events.open(local(name), bare, parser.line);
  });
  parser.on('closetag', ({ name }) => events.close(local(name)));
  parser.on('text', (text) => events.text(text));
  parser.on('cdata', (text) => events.text(text));
  parser.write(xml).close();
}

function local(name: string): string {
  return name.slice(name.indexOf(':') + 1);
}
