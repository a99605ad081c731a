/** A boat under way: fixes of the browser's own receiver, made from a known speed through the water and current. */
import type { CDPSession, Page } from "@playwright/test";
import { fixed, pass, quiet, standing } from "./phone";

export const kn = 1852 / 3600;
export const degree = Math.PI / 180;

export interface Way {
  /** m/s through the water, and heading in radians. */
  water: number;
  heading: number;
  /** m/s, and where it sets to. */
  drift?: number;
  set?: number;
  accuracy?: number;
}

/** Velocity over ground: through the water plus current. */
export function overGround({ water, heading, drift = 0, set = 0 }: Way): { speed: number; course: number } {
  const east = water * Math.sin(heading) + drift * Math.sin(set);
  const north = water * Math.cos(heading) + drift * Math.cos(set);
  return { speed: Math.hypot(east, north), course: Math.atan2(east, north) };
}

export class Boat {
  private lat = 41.2;
  private lon = -71.5;

  private last: object = {};

  private constructor(
    private readonly page: Page,
    private readonly browser: CDPSession,
  ) {}

  /** With the permission to know where the phone is. */
  static async aboard(page: Page): Promise<Boat> {
    await page.context().grantPermissions(["geolocation"]);
    return new Boat(page, await page.context().newCDPSession(page));
  }

  /** One fix. The small error makes none the repetition of the last. */
  async fix(way: Way, error = 0.02): Promise<void> {
    const { speed, course } = overGround(way);
    const seen = Math.max(0, speed + error * (Math.random() - 0.5));
    const heading = ((course / degree + 360) % 360) + error * (Math.random() - 0.5);
    this.lat += (seen * Math.cos(course)) / 1852 / 60;
    this.lon += (seen * Math.sin(course)) / 1852 / 60 / Math.cos(this.lat * degree);
    this.last = {
      latitude: this.lat,
      longitude: this.lon,
      accuracy: way.accuracy ?? 5,
      speed: seen,
      heading: (heading + 360) % 360,
    };
    await fixed(this.page, () => this.again());
  }

  /** The last fix once more, as a receiver does that has frozen. */
  async again(): Promise<void> {
    await this.browser.send("Emulation.setGeolocationOverride", this.last);
  }

  /**
   * Fixes one after another, faster than a receiver sends them: one in so many ms of the page's own time, which waits
   * for the calculator however busy the machine is.
   */
  async run(ways: Way[], every = 60): Promise<void> {
    await standing(this.page, async () => {
      for (const way of ways) {
        await this.fix(way);
        await pass(this.page, every);
        await quiet(this.page);
      }
    });
  }
}

/** So many times the same. */
export const steadily = (way: Way, times: number): Way[] => Array.from({ length: times }, () => way);

/** A turn to starboard from the heading through an angle. */
export const turning = (way: Way, angle: number, times: number): Way[] =>
  Array.from({ length: times }, (_, i) => ({ ...way, heading: way.heading + (angle * i) / (times - 1) }));
