/** A gateway of the boat's instruments: a TCP server that says what a sounder, a wheel and a receiver would. */

import type { AddressInfo } from "node:net";
import { createServer, type Server, type Socket } from "node:net";

const sum = (body: string): string =>
  [...body]
    .reduce((all, char) => all ^ char.charCodeAt(0), 0)
    .toString(16)
    .toUpperCase()
    .padStart(2, "0");

export const sentence = (body: string): string => `$${body}*${sum(body)}\r\n`;

export class Gateway {
  /** m below the surface, knots through the water. */
  depth = 15.24;
  speed = 3.2;
  /** So often it was said. */
  said = 0;
  private readonly sockets = new Set<Socket>();
  private timer: ReturnType<typeof setInterval> | undefined;

  private constructor(private readonly server: Server) {}

  get source(): string {
    return `tcp://127.0.0.1:${(this.server.address() as AddressInfo).port}`;
  }

  static async open(): Promise<Gateway> {
    const server = createServer();
    await new Promise<void>((done) => server.listen(0, "127.0.0.1", done));
    const gateway = new Gateway(server);
    server.on("connection", (socket) => {
      gateway.sockets.add(socket);
      socket.on("close", () => gateway.sockets.delete(socket));
      socket.on("error", () => {});
    });
    gateway.plug();
    return gateway;
  }

  /** Twice a second, as the wind has it among things that nobody here needs. */
  plug(): void {
    this.timer = setInterval(() => this.say(), 500);
  }

  /** The cable is pulled: the connection stands, and nothing comes. */
  pull(): void {
    clearInterval(this.timer);
  }

  private say(): void {
    this.said++;
    const text = [
      `SDDPT,${(this.depth - 0.5).toFixed(2)},0.5`,
      `VWVHW,,T,,M,${this.speed.toFixed(2)},N,,K`,
      "YXMTW,16.5,C",
      "HCHDT,045.0,T",
      `GPRMC,,A,4112.0000,N,07130.0000,W,${(this.speed + 0.1).toFixed(2)},045.0,,,`,
      "GPGSV,3,1,12,02,,,32",
    ].map(sentence);
    for (const socket of this.sockets) socket.write(`${text.join("")}$SDDPT,1.0,0.5*00\r\n`);
  }

  close(): void {
    this.pull();
    for (const socket of this.sockets) socket.destroy();
    this.server.close();
  }
}
