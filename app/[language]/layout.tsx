import type { Metadata, Viewport } from 'next';
import type { ReactNode } from 'react';
import { KeepPages } from '../components/keep-pages';
import { SiteFoot } from '../components/site-foot';
import { type LanguageParams, readSpeech } from '../view/read-speech';
import '../styles/site.css';

export async function generateMetadata({ params }: LanguageParams): Promise<Metadata> {
  const { texts } = await readSpeech(params);
  return {
    description: texts.tagline,
    icons: { icon: { url: '/mark.svg', type: 'image/svg+xml' } },
    alternates: {
      types: { 'application/atom+xml': [{ url: '/feeds/releases.atom', title: texts.downloads.feed }] },
    },
  };
}

export const viewport: Viewport = { width: 'device-width', initialScale: 1, colorScheme: 'light dark' };

export default async function Layout({ params, children }: LanguageParams & { children: ReactNode }) {
  const speech = await readSpeech(params);
  const { language, texts } = speech;
  return (
    <html lang={language}>
      <body>
        <a className="skip" href="#content">
          {texts.skip}
        </a>
        {children}
        <SiteFoot speech={speech} />
        <KeepPages />
      </body>
    </html>
  );
}
