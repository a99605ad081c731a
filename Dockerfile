# The binary, built by the same commands as everywhere: `make image` runs the COPYs and RUNs of these stages without an
# engine, so keep each in one line.
FROM node:20.20.2-bookworm-slim AS node
FROM golang:1.26.8-bookworm AS build
COPY --from=node /usr/local /usr/local
WORKDIR /src
COPY go.mod go.sum ./
RUN go mod download
COPY . .
ARG RELEASE=dev
ARG COMMIT=
RUN make linux
RUN install -D bin/wirewake-linux-* out/wirewake && mkdir -m 0700 out/data

# What serves many boats: docker build --target harbour -t wirewake-harbour .
FROM build AS build-harbour
RUN make harbour-linux
RUN install -D bin/wirewake-harbour-linux-* out/wirewake-harbour

FROM scratch AS harbour
COPY --from=build /etc/ssl/certs/ca-certificates.crt /etc/ssl/certs/
COPY --from=build-harbour /src/out/wirewake-harbour /wirewake-harbour
USER 65532:65532
EXPOSE 8610 9610
ENTRYPOINT ["/wirewake-harbour"]
CMD ["serve", "--metrics", ":9610"]

# Nothing but the binary, and whom it trusts when it asks for a certificate or exchanges with a server at home.
# Inside, the boat's network cannot be seen: say how phones reach it,
#   docker run -p 8610:8610 -v wirewake:/data IMAGE serve --address https://192.168.1.5:8610
#   docker run -p 443:8610 -v wirewake:/data IMAGE serve --listen :8610 --domain boat.example
FROM scratch
COPY --from=build /etc/ssl/certs/ca-certificates.crt /etc/ssl/certs/
COPY --from=build /src/out/wirewake /wirewake
COPY --from=build --chown=65532:65532 /src/out/data /data
USER 65532:65532
ENV XDG_DATA_HOME=/data container=oci
VOLUME /data
EXPOSE 8610
HEALTHCHECK CMD ["/wirewake", "healthz"]
ENTRYPOINT ["/wirewake"]
CMD ["serve"]
