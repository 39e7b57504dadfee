import type { Readable } from 'node:stream';
import { StringDecoder } from 'node:string_decoder';
import sax, { type SAXOptions, type SAXParser, type Tag } from 'sax';
import { SheetError } from '../sheet-error';
import { damagedWorkbook } from './zip-package';

/** Told of a part's elements, without their prefixes. */
export interface XmlListener {
  open(name: string, attributes: Readonly<Record<string, string>>): void;
  close?(name: string): void;
  text?(text: string): void;
}

/**
 * Reads a part of a workbook piece by piece; after each piece the caller goes on. No entity beyond XML's own five is
 * known, and a document type is refused, so nothing can be blown up or fetched.
 *
 * @throws SheetError where the part is no XML
 */
export async function* readXml(source: Readable, listener: XmlListener): AsyncGenerator<void> {
  const xml = createParser(listener);
  const decoder = createDecoder();
  try {
    for await (const bytes of source as AsyncIterable<Buffer>) {
      xml.write(decoder.write(bytes));
      yield;
    }
    xml.write(decoder.end()).close();
    yield;
  } catch (error) {
    if (error instanceof SheetError) throw error;
    throw damagedWorkbook(`one of its parts is damaged (${firstLine(error)})`);
  } finally {
    source.destroy();
  }
}

/** The same to its end. */
export async function readWholeXml(source: Readable, listener: XmlListener): Promise<void> {
  for await (const _ of readXml(source, listener));
}

function createParser({ open, close, text }: XmlListener): SAXParser {
  const xml = sax.parser(true, OPTIONS);
  xml.onopentag = ({ name, attributes }) => open(local(name), attributes as Tag['attributes']);
  if (close) xml.onclosetag = (name) => close(local(name));
  if (text) {
    xml.ontext = text;
    xml.oncdata = text;
  }
  xml.ondoctype = () => {
    throw damagedWorkbook('one of its parts declares a document type, which no spreadsheet program writes');
  };
  xml.onerror = (error) => {
    throw error;
  };
  return xml;
}

/** `strictEntities`: XML's own five alone (missing in the types). */
const OPTIONS: SAXOptions & { strictEntities: boolean } = { position: false, strictEntities: true };

/** UTF-8, or UTF-16 where the first bytes say so. */
function createDecoder(): { write(bytes: Buffer): string; end(): string } {
  let decoder: StringDecoder | null = null;
  return {
    write(bytes) {
      decoder ??= new StringDecoder(bytes[0] === 0xff && bytes[1] === 0xfe ? 'utf16le' : 'utf8');
      return decoder.write(bytes).replace(/^\ufeff/, '');
    },
    end: () => decoder?.end() ?? '',
  };
}

function local(name: string): string {
  const colon = name.indexOf(':');
  return colon < 0 ? name : name.slice(colon + 1);
}

function firstLine(error: unknown): string {
  return (error instanceof Error ? error.message : String(error)).split('\n')[0]!.toLowerCase();
}
