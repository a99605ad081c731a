# The calculations for the phone, and the Go toolchain's own loader for them.
FROM golang:1.26.8-alpine AS calc
WORKDIR /src
COPY go.mod go.sum ./
RUN go mod download
COPY calc calc
RUN mkdir /out && \
    GOOS=js GOARCH=wasm go build -trimpath -ldflags=-w -gcflags=runtime=-l -gcflags=wirewake/calc/...=-l \
        -gcflags=wirewake/calc/towline/line= -o /out/calc.wasm ./calc/wasm && \
    cp "$(go env GOROOT)/lib/wasm/wasm_exec.js" /out/

# The webapp, into /src/embed/dist.
FROM node:20.20.2-bookworm-slim AS webapp
WORKDIR /src/webapp
COPY webapp/package.json webapp/package-lock.json webapp/.npmrc ./
RUN npm ci
COPY webapp ./
COPY tools/tides ../tools/tides
RUN mkdir -p public/tides && for region in east west; do \
        node ../tools/tides/make.mjs $region public/tides/$region.bin; \
    done
COPY --from=calc /out/ public/
RUN npm run build

# The binary, with all it needs inside: C library, SQLite and the webapp.
FROM calc AS binary
RUN apk add --no-cache gcc musl-dev
COPY embed embed
COPY server server
COPY --from=webapp /src/embed/dist embed/dist
ARG RELEASE=dev
ARG COMMIT=
RUN CGO_ENABLED=1 go build -trimpath \
    -ldflags "-s -w -linkmode external -extldflags -static -X main.release=$RELEASE -X main.commit=$COMMIT" \
    -o /out/wirewake ./server && \
    mkdir -m 0700 /out/data

# Nothing but the binary, and whom it trusts when it asks for a certificate or exchanges with a server at home.
# Inside, the boat's network cannot be seen: say how phones reach it,
#   docker run -p 8610:8610 -v wirewake:/data IMAGE serve --address https://192.168.1.5:8610
#   docker run -p 443:8610 -v wirewake:/data IMAGE serve --listen :8610 --domain boat.example
FROM scratch
COPY --from=binary /etc/ssl/certs/ca-certificates.crt /etc/ssl/certs/
COPY --from=binary /out/wirewake /wirewake
COPY --from=binary --chown=65532:65532 /out/data /data
USER 65532:65532
ENV XDG_DATA_HOME=/data container=oci
VOLUME /data
EXPOSE 8610
HEALTHCHECK CMD ["/wirewake", "healthz"]
ENTRYPOINT ["/wirewake"]
CMD ["serve"]
