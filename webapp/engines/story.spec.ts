import { test } from "./engines";

test("try", async ({ phone, engine, server }) => {
      await phone.go("");
      await phone.sees(/\d+ ± \d+ ft/);
      console.log(await phone.run(() => [innerWidth, innerHeight, isSecureContext]));
      await phone.until(() => navigator.serviceWorker.controller?.state === "activated");
      await phone.go(server.invite("skipper"));
      await phone.sees("Here is an invitation");
      await phone.fill("A name for this phone", engine);
      await phone.tap("Come aboard");
      await phone.sees("This phone is");
      await phone.go("#/notes");
      await phone.tap("Start a trip");
      await phone.tap(/^Mark/);
      await phone.sees("Saved");
      await phone.go("#/notes");
      await phone.sees("All sent");
      await server.pause();
      await phone.reload();
      await phone.sees("Hookup");
      await phone.quit(); await phone.start();
      await phone.go("#/notes");
      await phone.sees("Hookup");
      await server.resume();
  });
