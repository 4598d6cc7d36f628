// Package pitzer is the ion-interaction model of strong solutions.
package pitzer
