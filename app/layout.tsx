import type { Metadata, Viewport } from 'next';
import type { ReactNode } from 'react';
import { en } from './messages/en';
import './styles/base.css';
import './styles/page.css';
import './styles/figures.css';
import './styles/print.css';

export const metadata: Metadata = {
  title: en.name,
  description: en.tagline,
  icons: { icon: { url: '/mark.svg', type: 'image/svg+xml' } },
  alternates: {
    types: { 'application/atom+xml': [{ url: '/feeds/releases.atom', title: en.downloads.feed }] },
  },
};

export const viewport: Viewport = { width: 'device-width', initialScale: 1, colorScheme: 'light dark' };

export default function Layout({ children }: { children: ReactNode }) {
  return (
    <html lang="en">
      <body>
        <a className="skip" href="#content">
          {en.skip}
        </a>
        {children}
      </body>
    </html>
  );
}
