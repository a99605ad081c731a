export declare const chromiumPath: string;
