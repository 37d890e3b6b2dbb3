/** Put in by the bundler from package.json. */
declare const MILLSIDE_VERSION: string;
